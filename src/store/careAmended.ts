import { isAmendment } from "../record/amendmentRefusal.ts";
import type { AmendmentRef } from "../record/indexRow.ts";
import type { LogEntry } from "../record/logEntry.ts";
import type { TestHistory } from "../record/versions.ts";
import { historyOf, testAt } from "./amendedHistory.ts";
import type { Log } from "./log.ts";

/**
 * The tests that some of these entries are about, each as it read before that entry, by the number of the entry; without
 * those that can't be read now.
 *
 * @param known where the entries about tests lie that were taken in already
 */
export async function testsBefore(
  log: Log,
  known: readonly AmendmentRef[],
  entries: readonly LogEntry[],
): Promise<ReadonlyMap<number, TestHistory>> {
  const amending = entries.filter(isAmendment);
  const before = new Map<number, TestHistory>();
  for (const [i, { number, of }] of amending.entries()) {
    const test = await testAt(log, of);
    if (!test.ok || test.value === null) continue;
    const history = await historyOf(log, test.value, [...known, ...amending.slice(0, i)]);
    if (history.ok) before.set(number, history.value);
  }
  return before;
}
