import { amendingRefusal } from "../assess/correctionOf.ts";
import { type Amending, correctedTest, isAmendment } from "../record/amendmentRefusal.ts";
import type { Amendment, LogEntry, NewEntry } from "../record/logEntry.ts";
import { practiceRefusal } from "../record/practice.ts";
import type { TestRecord } from "../record/test.ts";
import { standingOf, type TestHistory } from "../record/versions.ts";
import { releaseRefusal } from "../shift/holdReason.ts";
import { type HoldOpened, holdOn, holdRefusal, openHolds } from "../shift/holds.ts";
import { testAt } from "./amendedHistory.ts";
import type { Drawers } from "./drawers.ts";
import { filingDay } from "./filingDay.ts";
import { monthOf } from "./layout.ts";

/** What is on record already, as far as it bears on whether an entry can be recorded. */
export class OnRecord {
  readonly #drawers: Drawers;

  constructor(drawers: Drawers) {
    this.#drawers = drawers;
  }

  /** Why an entry does not fit what is on record already; null when it does. */
  async refusal(entry: NewEntry): Promise<string | null> {
    if (entry.kind === "care" || entry.kind === "registered") return this.#drawers.care.refusal(entry);
    if (isAmendment(entry)) return this.#amendingRefusal(entry);
    if (entry.kind === "hold opened" || entry.kind === "hold closed")
      return holdRefusal(entry, await this.#drawers.amended.matters());
    if (entry.kind !== "test" && entry.kind !== "test ended") return null;
    const practised = practiceRefusal(entry.test);
    if (practised !== null) return practised;
    if (entry.kind === "test") {
      const unfit = (await this.#releaseRefusal(entry.test)) ?? (await this.#retestRefusal(entry.test));
      if (unfit !== null) return unfit;
    }
    const { testId } = entry.test;
    const ended = this.#drawers.log
      .written()
      ?.entries.find((one) => one.kind === "test ended" && one.test.testId === testId);
    if (ended !== undefined)
      return `test ${testId} was ended without a result, as entry ${ended.number} of ${ended.day}`;
    const done = entry.kind === "test ended" ? await this.earlier(entry.test) : null;
    return done === null ? null : `test ${testId} is recorded already, as entry ${done.number} of ${done.day}`;
  }

  async #held(product: string, lot: string): Promise<HoldOpened | null> {
    return holdOn(openHolds(await this.#drawers.amended.matters()), product, lot);
  }

  async #releaseRefusal(test: TestRecord, waived = false): Promise<string | null> {
    const { signed, disposition, product, lot } = test;
    if (disposition !== "release") return null;
    return releaseRefusal({ ...signed, disposition }, waived, await this.#held(product.code, lot));
  }

  /** What a retest repeats must be a test of the same product that is on record. */
  async #retestRefusal({ retest, product }: TestRecord): Promise<string | null> {
    if (retest === undefined) return null;
    const { day, number, testId } = retest.of;
    const of = await testAt(this.#drawers.log, retest.of);
    if (!of.ok) return of.reason;
    const fits = of.value?.test.product.code === product.code;
    return fits ? null : `the test says that it repeats ${testId}, but entry ${number} of ${day} is no such test of it`;
  }

  async #amendingRefusal(entry: Extract<NewEntry, { kind: Amendment["kind"] }>): Promise<string | null> {
    const { log, amended } = this.#drawers;
    const { day, number, testId } = entry.of;
    const test = await testAt(log, entry.of);
    if (!test.ok) return test.reason;
    if (test.value === null) return `the log holds no test ${testId} as entry ${number} of ${day}`;
    const history = await amended.history(test.value);
    if (!history.ok) return history.reason;
    return amendingRefusal(history.value, entry) ?? this.#releaseByCorrection(history.value, entry);
  }

  /** A correction releases a lot that is on hold as little as a test does, nor does it bring a release to such a lot. */
  async #releaseByCorrection(history: TestHistory, entry: Amending): Promise<string | null> {
    if (entry.kind !== "correction") return null;
    if (!entry.changes.some(({ field }) => field === "disposition" || field === "lot")) return null;
    const test = correctedTest(history, entry.changes);
    const { waived } = standingOf(history);
    return test.ok ? this.#releaseRefusal({ ...test.value, signed: entry.signed }, waived) : test.reason;
  }

  /** The entry that a test has already; null when it has none. */
  async earlier({ testId, startedAt }: Pick<TestRecord, "testId" | "startedAt">): Promise<LogEntry | null> {
    const { log, index } = this.#drawers;
    const isIt = (entry: LogEntry): boolean => entry.kind === "test" && entry.test.testId === testId;
    const atHand = log.written()?.entries.find(isIt);
    if (atHand !== undefined) return atHand;
    const begun = await filingDay(startedAt, this.#drawers.station, this.#drawers.cabinet);
    if (!begun.ok) return null;
    for (const month of log.months().filter((later) => later >= monthOf(begun.value))) {
      const row = (await index.rows(month)).find((one) => one.testId === testId);
      const found = row === undefined ? null : await log.day(row.day);
      const entry = found?.is === "read" ? found.content.entries.find(isIt) : undefined;
      if (entry !== undefined) return entry;
    }
    return null;
  }
}
