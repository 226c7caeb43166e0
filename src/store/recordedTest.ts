import { accepted, type Outcome } from "../entry/outcome.ts";
import type { Head } from "../record/logEntry.ts";
import type { TestHistory } from "../record/versions.ts";
import { testAt } from "./amendedHistory.ts";
import { AmendedTests } from "./amendedTests.ts";
import type { Cabinet } from "./cabinet.ts";
import type { IndexRowOf } from "./drawnRow.ts";
import { Log } from "./log.ts";
import { MonthIndex } from "./monthIndex.ts";

/** A recorded test with all that was said of it later, and where the log ends that it was read from. */
export interface RecordedTest {
  readonly history: TestHistory;
  readonly head: Head;
}

/**
 * The test of an entry number, or the one that a later entry of this number is about; null when there is none. Goes
 * through the index of the months, newest first, and reads no more days than the test and its later entries lie in. Refused while one of
 * these is out of reach.
 */
export async function readRecordedTest(
  cabinet: Cabinet,
  number: number,
  rowOf: IndexRowOf,
): Promise<Outcome<RecordedTest | null>> {
  const log = await Log.open(cabinet);
  const index = new MonthIndex(cabinet, log, rowOf);
  for (const month of log.months()) {
    const { rows, amendments = [] } = await index.month(month);
    const row = rows.find((one) => one.number === number);
    const of = row ?? amendments.find((one) => one.number === number)?.of;
    const entry = of === undefined ? accepted(null) : await testAt(log, of);
    if (!entry.ok) return entry;
    if (entry.value === null) continue;
    const history = await new AmendedTests(cabinet, log, index, rowOf).history(entry.value);
    return history.ok ? accepted({ history: history.value, head: log.end() }) : history;
  }
  return accepted(null);
}
