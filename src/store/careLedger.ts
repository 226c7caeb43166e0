import canonicalize from "canonicalize";
import { type CareLedger, emptyLedger } from "../care/ledger/ledger.ts";
import { take } from "../care/ledger/take.ts";
import { isAmendment } from "../record/amendmentRefusal.ts";
import type { LogEntry } from "../record/logEntry.ts";
import { type Cabinet, report } from "./cabinet.ts";
import { testsBefore } from "./careAmended.ts";
import { careLedgerAtMs, readCareLedger, saidOf, writeCareLedger } from "./careFile.ts";
import { keptSealOf } from "./chainEnd.ts";
import { diskTrouble } from "./diskWords.ts";
import type { Log } from "./log.ts";
import { queue } from "./queue.ts";

/** So many entries that tell nothing of sieves may go by before the file is told how far the log has come. */
const UNTOLD = 100;

/**
 * What the log tells of sieves, balances and weights, at hand without reading the log: `index/care.json` is read once and
 * follows each entry. Where it is behind, the newest days are read until it meets the log; where it is missing, not as it
 * was written, or the log does not go on from it, it is drawn from the whole log again. Where days of the log can't be read
 * it says that it is short, and is drawn again once one of them can be. Recording never waits for it.
 */
export class CareLedgerOf {
  readonly #cabinet: Cabinet;
  readonly #log: Log;
  readonly #inTurn = queue();
  #known: CareLedger | null = null;
  /** Entries taken in since the file was written, none of which told anything. */
  #untold = 0;
  #toWrite = false;
  #writing: Promise<void> | null = null;

  constructor(cabinet: Cabinet, log: Log) {
    this.#cabinet = cabinet;
    this.#log = log;
  }

  /** The ledger as the log stands now. It goes on changing: whoever keeps something of it takes it at once. */
  now(): Promise<CareLedger> {
    return this.#inTurn(() => this.#upToDate());
  }

  /** Takes in what was recorded just now; never fails, for whoever records has nothing to do with it. */
  async follow(entries: readonly LogEntry[]): Promise<void> {
    try {
      await this.#inTurn(async () => {
        const known = this.#known;
        const goesOn = known !== null && entries[0]?.previous === known.head.seal;
        if (!goesOn || !(await this.#takeAll(known, entries))) return void (await this.#upToDate());
        this.#writeDown();
      });
    } catch (fault) {
      this.#known = null;
      report(this.#cabinet, diskTrouble(fault, "what is known of the sieves is behind and is drawn again later"));
    }
  }

  /** Draws the ledger from the log alone. */
  redraw(): Promise<void> {
    return this.#inTurn(async () => {
      this.#known = await this.#drawn();
      this.#writeDown();
    });
  }

  /** Whether the file says what the log says; where there is none, nothing is said. */
  agrees(): Promise<boolean> {
    return this.#inTurn(async () => {
      if ((await careLedgerAtMs(this.#cabinet)) === null) return true;
      const file = await readCareLedger(this.#cabinet);
      if (file === null) return false;
      const caughtUp = (await this.#caughtUp(file)) ?? emptyLedger();
      return canonicalize(saidOf(caughtUp)) === canonicalize(saidOf(await this.#drawn()));
    });
  }

  /** Resolves when the file holds what memory holds. */
  async settled(): Promise<void> {
    await this.#inTurn(async () => undefined);
    await this.#writing;
  }

  async #upToDate(): Promise<CareLedger> {
    const isWriter = this.#cabinet.readOnly() === null;
    const before = (isWriter ? this.#known : null) ?? (await readCareLedger(this.#cabinet));
    const ledger = (before === null ? null : await this.#caughtUp(before)) ?? (await this.#drawn());
    this.#known = ledger;
    this.#writeDown();
    return ledger;
  }

  async #caughtUp(ledger: CareLedger): Promise<CareLedger | null> {
    if (ledger.short !== null && (await this.#canReadMoreThan(ledger.short))) return null;
    const end = this.#log.end();
    if (ledger.head.number === end.number) return ledger.head.seal === end.seal ? ledger : null;
    const beyond = await this.#beyond(ledger.head, end.number - ledger.head.number);
    if (beyond[0]?.previous !== ledger.head.seal || beyond.length < end.number - ledger.head.number) return null;
    if (!(await this.#takeAll(ledger, beyond))) return null;
    ledger.head = { number: end.number, day: end.day, seal: end.seal };
    return ledger;
  }

  /** What the log holds beyond an entry, read from the newest day back until it is met; in the order of the numbers. */
  async #beyond({ number }: CareLedger["head"], missing: number): Promise<readonly LogEntry[]> {
    const found: LogEntry[] = [];
    for (const month of missing > 0 ? this.#log.months() : []) {
      for (const day of (await this.#log.daysOf(month)).toReversed()) {
        found.push(...(await this.#entriesOf(day)).filter((entry) => entry.number > number));
        if (found.length >= missing) return found.sort((a, b) => a.number - b.number);
      }
    }
    return found.sort((a, b) => a.number - b.number);
  }

  /** Day by day, so that no more than a day is in memory; what is said of a test of a later day is taken in last. */
  async #drawn(): Promise<CareLedger> {
    const ledger = emptyLedger();
    const early: LogEntry[] = [];
    const days = new Set<string>();
    let count = 0;
    for (const month of this.#log.months().toReversed())
      for (const day of await this.#log.daysOf(month)) {
        const entries = await this.#entriesOf(day);
        if (entries.length > 0) days.add(day);
        count += entries.length;
        const isEarly = (entry: LogEntry) => isAmendment(entry) && entry.of.day > day;
        early.push(...entries.filter(isEarly));
        await this.#takeIn(
          ledger,
          entries.filter((entry) => !isEarly(entry)),
        );
      }
    await this.#takeIn(
      ledger,
      early.sort((a, b) => a.number - b.number),
    );
    const { number, day, seal } = this.#log.end();
    ledger.head = { number, day, seal };
    if (count < number) ledger.short = days;
    this.#toWrite = true;
    return ledger;
  }

  /** Whether the log has a day besides these that can be read: it was damaged or out of reach and is there again. */
  async #canReadMoreThan(days: ReadonlySet<string>): Promise<boolean> {
    for (const month of this.#log.months())
      for (const day of await this.#log.daysOf(month))
        if (!days.has(day) && (await this.#entriesOf(day)).length > 0) return true;
    return false;
  }

  async #entriesOf(day: string): Promise<readonly LogEntry[]> {
    const read = await this.#log.day(day);
    return read.is === "read" ? read.content.entries : [];
  }

  /** All at once, after all is read, so that nobody ever sees or writes a ledger that took in the half. */
  async #takeIn(ledger: CareLedger, entries: readonly LogEntry[]): Promise<void> {
    const before = await testsBefore(this.#log, [...ledger.amendments.values()], entries);
    for (const entry of entries) take(ledger, entry, before.get(entry.number));
  }

  /** False, and nothing is taken in, where a test that is now read otherwise can't be read. */
  async #takeAll(ledger: CareLedger, entries: readonly LogEntry[]): Promise<boolean> {
    const before = await testsBefore(this.#log, [...ledger.amendments.values()], entries);
    if (entries.some((entry) => isAmendment(entry) && !before.has(entry.number))) return false;
    const told = entries.filter((entry) => take(ledger, entry, before.get(entry.number))).length;
    const last = entries.at(-1);
    if (last === undefined) return true;
    for (const { day } of entries) ledger.short?.add(day);
    ledger.head = { number: last.number, day: last.day, seal: keptSealOf(last) };
    this.#untold += entries.length;
    if (told > 0 || this.#untold >= UNTOLD) this.#toWrite = true;
    return true;
  }

  #writeDown(): void {
    if (this.#toWrite && this.#cabinet.readOnly() === null) this.#writing ??= this.#writeAll();
  }

  async #writeAll(): Promise<void> {
    while (this.#toWrite && this.#known !== null) {
      this.#toWrite = false;
      this.#untold = 0;
      if ((await this.#cabinet.refusal()) === null) await writeCareLedger(this.#cabinet, this.#known);
    }
    this.#writing = null;
  }
}
