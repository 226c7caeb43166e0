import { Low } from "lowdb";
import type { IndexMonth, IndexRow } from "../record/indexRow.ts";
import type { LogEntry } from "../record/logEntry.ts";
import { type Cabinet, found as foundAmiss, readFrom, report } from "./cabinet.ts";
import { indexCodec } from "./dayCodec.ts";
import { diskTrouble } from "./diskWords.ts";
import { drawnRow, type IndexRowOf } from "./drawnRow.ts";
import { durableFile } from "./durableFile.ts";
import { lostDays, lostSinceIndex } from "./indexAhead.ts";
import { emptyMonth, trustedPart, withDay, withOnly } from "./indexing.ts";
import { dayPath, indexPath, monthOf } from "./layout.ts";
import type { Log } from "./log.ts";
import { daysSetAside } from "./logFolder.ts";
import { queue } from "./queue.ts";

const TELL = "Run `sievewright verify` and tell whoever keeps the records";

/** How many months stay in memory: the one being written and those looked at lately. */
const MONTHS_AT_HAND = 4;

/**
 * Small rows of the recorded tests, a file a month. Only ever drawn from the log: what is missing, unreadable or behind is
 * drawn again, a day at a time. A month's file grows with the month, so it is written behind the scenes: nobody waits for it.
 */
export class MonthIndex {
  readonly #cabinet: Cabinet;
  readonly #log: Log;
  readonly #rowOf: IndexRowOf;
  readonly #atHand = new Map<string, IndexMonth>();
  readonly #inTurn = queue();
  /** What the files are still to be told. */
  readonly #toWrite = new Map<string, IndexMonth>();
  #writing: Promise<void> | null = null;
  /** Months some of whose days were out of reach when they were drawn: there can be more in them than their index says. */
  readonly #short = new Set<string>();

  constructor(cabinet: Cabinet, log: Log, rowOf: IndexRowOf) {
    this.#cabinet = cabinet;
    this.#log = log;
    this.#rowOf = rowOf;
  }

  /** Rows of a month, oldest first. */
  rows(month: string): Promise<readonly IndexRow[]> {
    return this.#inTurn(async () => (await this.#upToDate(month)).rows);
  }

  /** A month as it is now, with the later entries about tests that lie in it. */
  month(month: string): Promise<IndexMonth> {
    return this.#inTurn(() => this.#upToDate(month));
  }

  /** Whether the index of a month, as it was given out last, knows all of its days. */
  isWhole(month: string): boolean {
    return !this.#short.has(month);
  }

  /** Takes in what a day has gained. */
  follow(day: string): Promise<void> {
    return this.#inTurn(async () => void (await this.#upToDate(monthOf(day))));
  }

  /** Draws a month from its days alone; answers with how many entries they hold. */
  redraw(month: string): Promise<number> {
    return this.#inTurn(async () => {
      await this.#upToDate(month); // what only the old index knows is told before it goes
      const days = await this.#log.daysOf(month);
      const drawn = await this.#drawn(emptyMonth(month), days);
      await this.#keep(drawn);
      return Object.values(drawn.days).reduce((sum, day) => sum + day.entries, 0);
    });
  }

  /** Resolves when the files hold what memory holds. */
  async settled(): Promise<void> {
    await this.#inTurn(async () => undefined);
    await this.#writing;
  }

  async #upToDate(month: string): Promise<IndexMonth> {
    const trusted = this.#cabinet.readOnly() === null && this.isWhole(month);
    const atHand = trusted ? this.#atHand.get(month) : undefined;
    if (atHand !== undefined) return this.#followed(atHand);
    const found = await readFrom(this.#cabinet, indexPath(this.#cabinet.folder, month), indexCodec);
    const fits = found.is === "read" && found.content.month === month;
    const read = fits ? found.content : emptyMonth(month);
    const days = await this.#log.daysOf(month);
    await this.#tellLost(read, days);
    this.#short.delete(month);
    const known = trustedPart(read);
    const current = await this.#drawn(withOnly(known, days), await this.#behind(known, days), read);
    if (current === read) this.#remember(read);
    else await this.#keep(current);
    return current;
  }

  /** Days that only the index knows; those whose file was set aside were told then. */
  async #tellLost(index: IndexMonth, days: readonly string[]): Promise<void> {
    if (lostDays(index, days).length === 0) return;
    const aside = await daysSetAside(this.#cabinet.folder, index.month, this.#cabinet.disk);
    for (const lost of lostDays(index, [...days, ...aside])) foundAmiss(this.#cabinet, `${lost}. ${TELL}`);
  }

  /** Only the day being written can have gained anything since a month was read. */
  async #followed(index: IndexMonth): Promise<IndexMonth> {
    const written = this.#log.written();
    if (written === null || monthOf(written.day) !== index.month) return index;
    const current = withDay(index, written, (entry) => this.#row(entry));
    if (current !== index) await this.#keep(current);
    return current;
  }

  async #drawn(index: IndexMonth, days: readonly string[], knew = index): Promise<IndexMonth> {
    let drawn = index;
    for (const day of days) {
      const found = await this.#log.day(day);
      const lost = found.is === "read" ? lostSinceIndex(knew, found.content) : null;
      if (lost !== null) foundAmiss(this.#cabinet, `${lost}. ${TELL}`);
      if (found.is === "out of reach") this.#short.add(index.month);
      if (found.is === "read") drawn = withDay(drawn, found.content, (entry) => this.#row(entry));
    }
    return drawn;
  }

  /** Days whose file is unknown to the index, was written after it, or is the one being written. */
  async #behind(index: IndexMonth, days: readonly string[]): Promise<readonly string[]> {
    const { folder, disk } = this.#cabinet;
    const indexAtMs = (await disk.modifiedAtMs(indexPath(folder, index.month))) ?? 0;
    const behind = days.map(async (day) => {
      if (index.days[day] === undefined || this.#log.inHand(day) !== null) return true;
      return ((await disk.modifiedAtMs(dayPath(folder, day))) ?? 0) > indexAtMs;
    });
    const flags = await Promise.all(behind);
    return days.filter((_, i) => flags[i]);
  }

  #row(entry: LogEntry): IndexRow | null {
    return entry.kind === "test" ? drawnRow(this.#cabinet, entry, () => this.#rowOf(entry)) : null;
  }

  async #keep(index: IndexMonth): Promise<void> {
    if ((await this.#cabinet.refusal()) !== null) return;
    this.#remember(index);
    this.#toWrite.set(index.month, index);
    this.#writing ??= this.#writeAll();
  }

  async #writeAll(): Promise<void> {
    for (const [month, index] of this.#toWrite) {
      this.#toWrite.delete(month);
      await this.#write(index);
    }
    this.#writing = null;
  }

  /** The index is no record: that it could not be written is told, and it is drawn again when next needed. */
  async #write(index: IndexMonth): Promise<void> {
    const { folder, disk } = this.#cabinet;
    try {
      await new Low(durableFile(indexPath(folder, index.month), indexCodec, disk), index).write();
    } catch (fault) {
      report(this.#cabinet, diskTrouble(fault, `index/${index.month}.json is behind and is drawn again later`));
    }
  }

  #remember(index: IndexMonth): void {
    this.#atHand.delete(index.month);
    this.#atHand.set(index.month, index);
    const oldest = this.#atHand.keys().next().value;
    if (this.#atHand.size > MONTHS_AT_HAND && oldest !== undefined) this.#atHand.delete(oldest);
  }
}
