import type { Head, LogEntry } from "../record/logEntry.ts";
import type { Cabinet } from "./cabinet.ts";
import { Log } from "./log.ts";

export type EndedEntry = Extract<LogEntry, { kind: "test ended" }>;

/**
 * The entry of this number, if it is a test that was ended without a result, and where the log ends; null when it is not.
 * Such tests have no place in the index: the days are read, newest first, until the number turns up.
 */
export async function readEndedTest(
  cabinet: Cabinet,
  number: number,
): Promise<{ readonly entry: EndedEntry; readonly head: Head } | null> {
  const log = await Log.open(cabinet);
  for (const month of log.months()) {
    for (const day of [...(await log.daysOf(month))].reverse()) {
      const found = await log.day(day);
      const entry = found.is === "read" ? found.content.entries.find((one) => one.number === number) : undefined;
      if (entry !== undefined) return entry.kind === "test ended" ? { entry, head: log.end() } : null;
    }
  }
  return null;
}
