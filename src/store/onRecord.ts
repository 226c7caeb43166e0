import { amendingRefusal } from "../assess/correctionOf.ts";
import { isAmendment } from "../record/amendmentRefusal.ts";
import type { Amendment, LogEntry, NewEntry } from "../record/logEntry.ts";
import type { TestRecord } from "../record/test.ts";
import { releaseRefusal } from "../shift/holdReason.ts";
import { holdRefusal } from "../shift/holds.ts";
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
    if (isAmendment(entry)) return this.#amendingRefusal(entry);
    if (entry.kind === "hold opened" || entry.kind === "hold closed")
      return holdRefusal(entry, await this.#drawers.amended.matters());
    if (entry.kind !== "test" && entry.kind !== "test ended") return null;
    if (entry.kind === "test") {
      const { signed, disposition } = entry.test;
      const unfit = releaseRefusal({ ...signed, disposition });
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

  async #amendingRefusal(entry: Extract<NewEntry, { kind: Amendment["kind"] }>): Promise<string | null> {
    const { log, amended } = this.#drawers;
    const { day, number, testId } = entry.of;
    const test = await testAt(log, entry.of);
    if (!test.ok) return test.reason;
    if (test.value === null) return `the log holds no test ${testId} as entry ${number} of ${day}`;
    const history = await amended.history(test.value);
    return history.ok ? amendingRefusal(history.value, entry) : history.reason;
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
