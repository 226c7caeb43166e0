import { isAmendment } from "../record/amendmentRefusal.ts";
import type { AmendmentRef } from "../record/indexRow.ts";
import type { Amendment, LogEntry, TestEntry } from "../record/logEntry.ts";
import type { TestHistory } from "../record/versions.ts";
import type { Log } from "./log.ts";

/** An entry by its place in the log; null where the day can't be read or has no such number. */
export async function entryAt(log: Log, day: string, number: number): Promise<LogEntry | null> {
  const found = await log.day(day);
  if (found.is !== "read") return null;
  return found.content.entries.find((entry) => entry.number === number) ?? null;
}

/** The recorded test that something refers to; null when the log has no such test there. */
export async function testAt(log: Log, { day, number, testId }: AmendmentRef["of"]): Promise<TestEntry | null> {
  const entry = await entryAt(log, day, number);
  return entry?.kind === "test" && entry.test.testId === testId ? entry : null;
}

const isAbout = ({ number, day, test }: TestEntry, later: LogEntry | null): later is Amendment =>
  later !== null &&
  isAmendment(later) &&
  later.of.number === number &&
  later.of.day === day &&
  later.of.testId === test.testId;

/** A test with the later entries about it that these point at, in the order of the log. */
export async function historyOf(log: Log, entry: TestEntry, refs: readonly AmendmentRef[]): Promise<TestHistory> {
  const about = refs.filter(({ of }) => of.number === entry.number).sort((a, b) => a.number - b.number);
  const found = await Promise.all(about.map(({ day, number }) => entryAt(log, day, number)));
  return { entry, later: found.filter((one) => isAbout(entry, one)) };
}
