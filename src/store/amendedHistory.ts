import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { isAmendment } from "../record/amendmentRefusal.ts";
import type { AmendmentRef } from "../record/indexRow.ts";
import type { Amendment, LogEntry, TestEntry } from "../record/logEntry.ts";
import type { TestHistory } from "../record/versions.ts";
import type { Log } from "./log.ts";

/** An entry by its place in the log; null where there is no such one, refused while its day is out of reach. */
export async function entryAt(log: Log, day: string, number: number): Promise<Outcome<LogEntry | null>> {
  const found = await log.day(day);
  if (found.is === "out of reach") return refused(found.why);
  const entries = found.is === "read" ? found.content.entries : [];
  return accepted(entries.find((entry) => entry.number === number) ?? null);
}

/** The recorded test that something refers to; null when the log has no such test there. */
export async function testAt(
  log: Log,
  { day, number, testId }: AmendmentRef["of"],
): Promise<Outcome<TestEntry | null>> {
  const found = await entryAt(log, day, number);
  if (!found.ok) return found;
  const entry = found.value;
  return accepted(entry?.kind === "test" && entry.test.testId === testId ? entry : null);
}

const isAbout = ({ number, day, test }: TestEntry, later: LogEntry | null): later is Amendment =>
  later !== null &&
  isAmendment(later) &&
  later.of.number === number &&
  later.of.day === day &&
  later.of.testId === test.testId;

/** A test with the later entries about it that these point at, in the order of the log; refused while one is out of reach. */
export async function historyOf(
  log: Log,
  entry: TestEntry,
  refs: readonly AmendmentRef[],
): Promise<Outcome<TestHistory>> {
  const about = refs.filter(({ of }) => of.number === entry.number).sort((a, b) => a.number - b.number);
  const later: Amendment[] = [];
  for (const found of await Promise.all(about.map(({ day, number }) => entryAt(log, day, number)))) {
    if (!found.ok) return refused(`what was said later of entry ${entry.number} can't be read: ${found.reason}`);
    if (isAbout(entry, found.value)) later.push(found.value);
  }
  return accepted({ entry, later });
}
