import canonicalize from "canonicalize";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { AmendedTest, AmendmentRef, IndexMonth, IndexRow, Matter } from "../record/indexRow.ts";
import type { TestEntry } from "../record/logEntry.ts";
import { currentTest, standingOf, type TestHistory } from "../record/versions.ts";
import { type AmendedContent, amendedAtMs, readAmended, writeAmended } from "./amendedFile.ts";
import { historyOf, testAt } from "./amendedHistory.ts";
import { type Known, keepDrawn, NOTHING, numbersOf, rowToday, saidIn } from "./amendedKnown.ts";
import type { Cabinet } from "./cabinet.ts";
import { drawnRow, type IndexRowOf } from "./drawnRow.ts";
import { ROWS_DRAWN } from "./indexRowOf.ts";
import { indexPath, monthOf } from "./layout.ts";
import type { Log } from "./log.ts";
import type { MonthIndex } from "./monthIndex.ts";
import { isMatter, mattersInOrder, takeMatters } from "./openMatters.ts";
import { queue } from "./queue.ts";

/** At an opening the months of the last entry and of the one before are looked through; more than that is noted down. */
const MONTHS_AS_EVER = 2;

/**
 * The tests that later entries are about, as they are to be read today. A later entry can lie in another month than its
 * test, so they are kept together in one small file, which follows from the index of the months and is drawn again from
 * them where it is missing, behind or not as it was written.
 */
export class AmendedTests {
  readonly #cabinet: Cabinet;
  readonly #log: Log;
  readonly #index: MonthIndex;
  readonly #rowOf: IndexRowOf;
  readonly #inTurn = queue();
  #known: Known | null = null;
  #prepared = false;
  #toWrite = false;
  #writing: Promise<void> | null = null;

  constructor(cabinet: Cabinet, log: Log, index: MonthIndex, rowOf: IndexRowOf) {
    this.#cabinet = cabinet;
    this.#log = log;
    this.#index = index;
    this.#rowOf = rowOf;
  }

  /** Rows of a month, oldest first, each of the latest version of its test. */
  rows(month: string): Promise<readonly IndexRow[]> {
    return this.#inTurn(async () => {
      const known = await this.#upToDate();
      const index = await this.#index.month(month);
      await this.#take(known, index);
      this.#writeDown();
      return index.rows.map((row) => rowToday(row, known));
    });
  }

  /** Takes in a later entry that has just been recorded. */
  follow(day: string): Promise<void> {
    return this.#inTurn(async () => {
      await this.#look(await this.#upToDate(), monthOf(day));
      this.#writeDown();
    });
  }

  /** Open holds and the control limits of all months, in the order of the log. */
  matters(): Promise<readonly Matter[]> {
    return this.#inTurn(async () => mattersInOrder((await this.#upToDate()).matters));
  }

  /** Rows of all tests that later entries are about, as they are to be read today; null while some of these are unknown. */
  amendedRows(): Promise<readonly IndexRow[] | null> {
    return this.#inTurn(async () => {
      const { tests, unread } = await this.#upToDate();
      return unread.size > 0 ? null : [...tests.values()].map(({ row }) => row);
    });
  }

  /** All that was said of a test, in the order of the log; refused while not all of it can be read. */
  history(entry: TestEntry): Promise<Outcome<TestHistory>> {
    return this.#inTurn(async () => {
      const { months, unread } = await this.#upToDate();
      const short = [...unread].find((month) => !this.#index.isWhole(month));
      if (short !== undefined)
        return refused(
          `what was said later of entry ${entry.number} can't be told while days of ${short} can't be read`,
        );
      return historyOf(this.#log, entry, [...months.values()].flat());
    });
  }

  /**
   * Once, before anything is recorded: what a crash kept from the index is taken in while the log still ends there. After
   * that nobody would look for it in an earlier month, where a clock that was set back may have put it.
   */
  async prepare(): Promise<void> {
    if (this.#prepared) return;
    await this.#inTurn(async () => {
      for (const month of this.#log.lastWritten()) await this.#index.month(month);
      if ((await amendedAtMs(this.#cabinet)) !== null) await this.#upToDate();
    });
    await this.settled();
    this.#prepared = true;
  }

  /** Draws everything from the months again. */
  redraw(): Promise<void> {
    return this.#inTurn(async () => {
      const months = this.#log.months();
      const drawn = await this.#drawn(NOTHING(), months);
      if (drawn.unread.size > 0)
        for (const [number, test] of this.#known?.tests ?? [])
          if (!drawn.tests.has(number)) drawn.tests.set(number, test);
      this.#known = drawn;
      if (months.length > MONTHS_AS_EVER || (await amendedAtMs(this.#cabinet)) !== null) this.#toWrite = true;
      this.#writeDown();
    });
  }

  /** Whether the file says what the months say; where there is none, nothing is said. */
  agrees(): Promise<boolean> {
    return this.#inTurn(async () => {
      if ((await amendedAtMs(this.#cabinet)) === null) return true;
      const file = await this.#fromFile();
      const drawn = await this.#drawn(NOTHING(), this.#log.months());
      return file !== null && canonicalize(saidIn(file)) === canonicalize(saidIn(drawn));
    });
  }

  /** Resolves when the files hold what memory holds. */
  async settled(): Promise<void> {
    await this.#inTurn(async () => undefined);
    await this.#index.settled();
    await this.#writing;
  }

  async #upToDate(): Promise<Known> {
    const isWriter = this.#cabinet.readOnly() === null;
    const known = this.#known?.isStale ? null : this.#known;
    if (isWriter && known !== null) {
      for (const month of this.#log.months()) if (!known.months.has(month)) await this.#look(known, month);
      return known.unread.size > 0 ? this.#again(known) : known;
    }
    const before = (await this.#fromFile()) ?? known;
    const months = before === null ? this.#log.months() : await this.#monthsBehind(before);
    this.#known = await this.#drawn(before ?? NOTHING(), months);
    if (months.length > MONTHS_AS_EVER) this.#toWrite = true;
    this.#writeDown();
    return this.#known;
  }

  /** What could not be read may be in reach by now. */
  async #again(known: Known): Promise<Known> {
    for (const month of [...known.unread]) await this.#look(known, month);
    this.#writeDown();
    return known;
  }

  /** The file, unless what is known is younger. */
  async #fromFile(): Promise<Known | null> {
    const atMs = await amendedAtMs(this.#cabinet);
    if (atMs === null || (this.#known !== null && this.#known.asOfMs > atMs)) return null;
    const read = await readAmended(this.#cabinet);
    if (read?.seen === undefined || read.drawnBy !== ROWS_DRAWN) return null;
    const tests = new Map(read.tests.map((test) => [test.row.number, test]));
    const matters = new Map(read.matters.map((matter) => [matter.number, matter]));
    const months = new Map(Object.entries(read.months));
    const seen = new Map(Object.entries(read.seen));
    return { ...NOTHING(), months, tests, matters, seen, head: read.head, asOfMs: atMs };
  }

  /** Months that can hold more than is known: of the last entries, never looked through, or written since. */
  async #monthsBehind({ months, unread, head, asOfMs }: Known): Promise<readonly string[]> {
    const since = head.day === null ? "" : monthOf(head.day);
    const last = this.#log.lastWritten();
    const flags = this.#log.months().map(async (month) => {
      if (month >= since || last.includes(month) || !months.has(month) || unread.has(month)) return true;
      return (await this.#indexedAtMs(month)) >= asOfMs;
    });
    const behind = await Promise.all(flags);
    return this.#log.months().filter((_, i) => behind[i]);
  }

  async #indexedAtMs(month: string): Promise<number> {
    const { folder, disk } = this.#cabinet;
    return (await disk.modifiedAtMs(indexPath(folder, month))) ?? 0;
  }

  /** The newest month last, which is the one to stay at hand. */
  async #drawn(known: Known, months: readonly string[]): Promise<Known> {
    for (const month of months.toReversed()) await this.#look(known, month);
    if (known.isStale) return this.#drawn(NOTHING(), this.#log.months());
    const times = await Promise.all(months.map((month) => this.#indexedAtMs(month)));
    known.asOfMs = Math.max(known.asOfMs, ...times);
    return known;
  }

  async #look(known: Known, month: string): Promise<void> {
    await this.#take(known, await this.#index.month(month));
  }

  /** What a month says of amended tests: those of which it says something else than before are drawn again. */
  async #take(known: Known, { month, amendments: refs = [], events = [] }: IndexMonth): Promise<void> {
    const matters = takeMatters(known, month, events.filter(isMatter));
    if (matters !== "as before") this.#toWrite = true;
    if (matters === "otherwise") known.isStale = true;
    const before = known.months.get(month);
    const isAsBefore = before !== undefined && numbersOf(before) === numbersOf(refs);
    if (isAsBefore && !known.unread.has(month) && this.#index.isWhole(month)) return;
    const others = [...known.months].flatMap(([other, its]) => (other === month ? [] : its));
    const touched = new Map([...(before ?? []), ...refs].map(({ of }) => [of.number, of]));
    const drawn = await this.#amendedTests([...touched.values()], [...others, ...refs]);
    // Together, so that no file is ever written that knows a month and not its tests.
    known.months.set(month, refs);
    if (this.#index.isWhole(month) && drawn.size === touched.size) known.unread.delete(month);
    else known.unread.add(month);
    keepDrawn(known.tests, drawn);
    if (touched.size > 0) this.#toWrite = true;
  }

  /** Those that can be read now, by their number; null for one that nothing is said of. */
  async #amendedTests(
    tests: readonly AmendmentRef["of"][],
    refs: readonly AmendmentRef[],
  ): Promise<ReadonlyMap<number, AmendedTest | null>> {
    const drawn = new Map<number, AmendedTest | null>();
    for (const of of tests) {
      const test = await this.#amendedTest(of, refs);
      if (test.ok) drawn.set(of.number, test.value);
    }
    return drawn;
  }

  async #amendedTest(of: AmendmentRef["of"], refs: readonly AmendmentRef[]): Promise<Outcome<AmendedTest | null>> {
    const entry = await testAt(this.#log, of);
    if (!entry.ok || entry.value === null) return entry.ok ? accepted(null) : entry;
    const history = await historyOf(this.#log, entry.value, refs);
    if (!history.ok) return history;
    if (history.value.later.length === 0) return accepted(null);
    const row = this.#rowOfHistory(history.value);
    if (row === null) return refused(`the row of entry ${of.number} can't be drawn`);
    return accepted({ later: history.value.later.map(({ number }) => number), row });
  }

  #rowOfHistory(history: TestHistory): IndexRow | null {
    const { entry } = history;
    const read = { ...entry, test: currentTest(history) };
    return drawnRow(this.#cabinet, entry, () => ({ ...this.#rowOf(read), amended: standingOf(history) }));
  }

  #writeDown(): void {
    if (this.#toWrite && this.#cabinet.readOnly() === null) this.#writing ??= this.#writeAll();
  }

  /** The months first: a file that is younger than they are says all that they say. */
  async #writeAll(): Promise<void> {
    while (this.#toWrite) {
      this.#toWrite = false;
      await this.#index.settled();
      const content = this.#content();
      if (content !== null && (await this.#cabinet.refusal()) === null) await writeAmended(this.#cabinet, content);
    }
    this.#writing = null;
  }

  #content(): AmendedContent | null {
    if (this.#known === null || this.#known.isStale || this.#known.unread.size > 0) return null;
    const { months, tests, matters, seen } = this.#known;
    const { number, day } = this.#log.end();
    const byMonth = [...months].sort(([a], [b]) => (a < b ? -1 : 1));
    return {
      schema: "sievewright.amended/1",
      drawnBy: ROWS_DRAWN,
      head: { number, day },
      months: Object.fromEntries(byMonth.map(([month, refs]) => [month, [...refs]])),
      tests: [...tests.values()].sort((a, b) => a.row.number - b.row.number),
      matters: mattersInOrder(matters),
      seen: Object.fromEntries([...seen].sort(([a], [b]) => (a < b ? -1 : 1))),
    };
  }
}
