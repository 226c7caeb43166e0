import { dirname } from "node:path";
import { Low } from "lowdb";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { DayFile, Head, LogEntry, NewEntry } from "../record/logEntry.ts";
import { type Cabinet, type Found, found as foundAmiss, report } from "./cabinet.ts";
import { movedOn } from "./chainEnd.ts";
import { chained } from "./chained.ts";
import { dayCodec } from "./dayCodec.ts";
import { diskTrouble } from "./diskWords.ts";
import { durableFile } from "./durableFile.ts";
import { findEnd, readHead, writeHead } from "./headFile.ts";
import { dayPath, monthOf } from "./layout.ts";
import { daysIn, monthsIn, newestDay } from "./logFolder.ts";
import { readDay } from "./readDay.ts";

/** The sealed entries, a file for each production day, chained from the first to the last. */
export class Log {
  readonly #cabinet: Cabinet;
  #months: readonly string[];
  #newest: string | null;
  #head: Head;
  /** The day being written. */
  #open: Low<DayFile> | null;
  /** A day whose last write failed: what the disk holds of it is only known after reading it again. */
  #unsettled: string | null = null;

  /** Tests recorded or ended in the days that the last entry can be in: a crash may have left their drafts behind. */
  readonly lastTests: readonly string[];

  private constructor(
    cabinet: Cabinet,
    months: readonly string[],
    newest: string | null,
    head: Head,
    days: readonly DayFile[],
  ) {
    const open = days.find(({ day }) => day === head.day) ?? null;
    const entries = days.flatMap((day) => day.entries);
    this.lastTests = entries.flatMap((entry) => ("test" in entry ? [entry.test.testId] : []));
    this.#cabinet = cabinet;
    this.#months = months;
    this.#newest = newest;
    this.#head = head;
    this.#open = open === null ? null : this.#lowOf(open);
  }

  /** Reads the head and the newest day (and the head's, where a clock was set back), nothing else. */
  static async open(cabinet: Cabinet): Promise<Log> {
    const months = await monthsIn(cabinet.folder, cabinet.disk);
    const newest = await newestDay(cabinet.folder, months, cabinet.disk);
    const written = await readHead(cabinet);
    const days: DayFile[] = [];
    for (const day of new Set([written?.day ?? null, newest])) {
      const found = day === null ? null : await readDay(cabinet, day);
      if (found?.is === "read") days.push(found.content);
      if (found?.is === "out of reach") cabinet.becomeReadOnly(found.why);
    }
    const head = await findEnd(cabinet, written, days);
    const log = new Log(cabinet, months, newest, head, days);
    if (head !== written && cabinet.readOnly() === null) await log.#keepHead();
    return log;
  }

  /** Months that have a log, newest first. */
  months(): readonly string[] {
    return this.#months;
  }

  /** Those that the last entry can have gone to, whatever the clock said. */
  lastWritten(): readonly string[] {
    const newest = this.#months.slice(0, 1);
    return [...new Set(this.#head.day === null ? newest : [...newest, monthOf(this.#head.day)])];
  }

  /** Where the chain ends. */
  end(): Head {
    return this.#head;
  }

  /** Where somebody else is the writer: which months there are by now, and where the log ends. */
  async catchUp(): Promise<void> {
    if (this.#cabinet.readOnly() === null) return;
    this.#months = await monthsIn(this.#cabinet.folder, this.#cabinet.disk);
    this.#head = (await readHead(this.#cabinet)) ?? this.#head;
  }

  /** Oldest first. */
  daysOf(month: string): Promise<readonly string[]> {
    return daysIn(this.#cabinet.folder, month, this.#cabinet.disk);
  }

  /** A day; the one being written is at hand, unless somebody else is the writer. */
  async day(day: string): Promise<Found<DayFile>> {
    const content = this.#cabinet.readOnly() === null ? this.inHand(day) : null;
    return content === null ? readDay(this.#cabinet, day) : { is: "read", content };
  }

  /** The day being written. */
  written(): DayFile | null {
    return this.#open?.data ?? null;
  }

  inHand(day: string): DayFile | null {
    return this.#open?.data.day === day ? this.#open.data : null;
  }

  /** After a failed write: reads that day again, so that an entry which did arrive keeps its number. */
  async settle(): Promise<Outcome<DayFile | null>> {
    if (this.#unsettled === null) return accepted(null);
    const taken = await this.take(this.#unsettled);
    if (taken.ok) this.#unsettled = null;
    return taken;
  }

  /** Makes a day ready to be written; refused when its file is out of reach. */
  async take(day: string): Promise<Outcome<DayFile>> {
    const atHand = this.inHand(day);
    if (atHand !== null) return accepted(atHand);
    const found = await readDay(this.#cabinet, day);
    if (found.is === "out of reach") return refused(found.why);
    const content = found.is === "read" ? found.content : { schema: "sievewright.day/1" as const, day, entries: [] };
    this.#open = this.#lowOf(content);
    this.#moveOn(content);
    return accepted(content);
  }

  /** Numbers, seals and writes entries of one day. Once accepted they are recorded, whatever else may fail. */
  async append(day: string, entries: readonly NewEntry[], station: string): Promise<Outcome<readonly LogEntry[]>> {
    const taken = await this.take(day);
    if (!taken.ok) return taken;
    const links = chained(this.#head, day, station, entries);
    if (!links.ok) return links;
    const { sealed, end } = links.value;
    const written = await this.#write(taken.value, sealed);
    if (!written.ok) return written;
    this.#remember(day);
    this.#head = end;
    await this.#keepHead();
    return accepted(sealed);
  }

  async #write(before: DayFile, sealed: readonly LogEntry[]): Promise<Outcome<void>> {
    const { folder, disk } = this.#cabinet;
    try {
      await this.#pointHeadBack(before.day);
      await disk.makeFolder(dirname(dayPath(folder, before.day)));
      const open = this.#lowOf({ ...before, entries: [...before.entries, ...sealed] });
      await open.write();
      this.#open = open;
      return accepted(undefined);
    } catch (fault) {
      this.#open = null;
      this.#unsettled = before.day;
      return refused(diskTrouble(fault, "the entry is not recorded"));
    }
  }

  /**
   * An opening looks for the chain's end in the head's day and in the newest. Where a clock was set back the next entry goes
   * to neither, so the head names that day beforehand.
   */
  async #pointHeadBack(day: string): Promise<void> {
    if (this.#newest === null || day >= this.#newest || day === this.#head.day) return;
    this.#head = { ...this.#head, day };
    await writeHead(this.#cabinet, this.#head);
  }

  /** A head that lags behind is moved on at the next entry or the next opening, so it never holds up a record. */
  async #keepHead(): Promise<void> {
    try {
      await writeHead(this.#cabinet, this.#head);
    } catch (fault) {
      report(this.#cabinet, diskTrouble(fault, "log/head.json is behind and is written with the next entry"));
    }
  }

  #moveOn(day: DayFile): void {
    const { head, trouble } = movedOn(this.#head, [day]);
    this.#head = head;
    if (trouble !== null) foundAmiss(this.#cabinet, trouble);
  }

  #remember(day: string): void {
    const month = monthOf(day);
    if (!this.#months.includes(month)) this.#months = [...this.#months, month].sort().reverse();
    if (this.#newest === null || day > this.#newest) this.#newest = day;
  }

  #lowOf(content: DayFile): Low<DayFile> {
    const file = durableFile(dayPath(this.#cabinet.folder, content.day), dayCodec, this.#cabinet.disk);
    return new Low<DayFile>(file, content);
  }
}
