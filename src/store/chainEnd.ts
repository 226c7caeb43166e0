import { remembered } from "../grading/remembered.ts";
import type { DayFile, Head, LogEntry } from "../record/logEntry.ts";
import { FIRST_PREVIOUS, sealOf } from "../record/seal.ts";

/** The end of a log that has no entry yet. */
export const NO_HEAD: Head = { schema: "sievewright.head/1", number: 0, day: null, seal: FIRST_PREVIOUS };

/** The seal of a recorded entry. No entry ever changes, so it is taken once and kept as long as the entry is. */
export const keptSealOf = remembered((entry: LogEntry): string => sealOf(entry));

export const headAt = (entry: LogEntry): Head => ({
  schema: "sievewright.head/1",
  number: entry.number,
  day: entry.day,
  seal: keptSealOf(entry),
});

/** Where the chain goes on, and in words what doesn't fit. */
export interface ChainEnd {
  readonly head: Head;
  readonly trouble: string | null;
}

/**
 * The head, moved on over what lies beyond it. A crash between writing a day and writing the head leaves entries that link
 * up: they count, and nothing need be said. Entries that don't link up are told; the chain goes on after the highest number
 * all the same, so that no number is given twice and the gap stays visible.
 */
export function movedOn(head: Head, days: readonly DayFile[]): ChainEnd {
  const beyond = days.flatMap((day) => day.entries).filter((entry) => entry.number > head.number);
  beyond.sort((a, b) => a.number - b.number);
  let end = head;
  for (const entry of beyond) if (linksTo(end, entry)) end = headAt(entry);
  const last = beyond.at(-1);
  if (last === undefined || last.number === end.number) return { head: end, trouble: null };
  return {
    head: headAt(last),
    trouble: `the log goes on to entry ${last.number}, but not from entry ${end.number} where it ended before`,
  };
}

const linksTo = (end: Head, entry: LogEntry): boolean => entry.number === end.number + 1 && entry.previous === end.seal;

/** Whether the entry that the head names is there and as it was; null when it is. */
export function endTrouble(head: Head, days: readonly DayFile[]): string | null {
  if (head.number === 0) return null;
  const ending = days.flatMap((day) => day.entries).find((entry) => entry.number === head.number);
  if (ending === undefined) return `entry ${head.number}, with which the log ended, is missing`;
  return keptSealOf(ending) === head.seal ? null : `entry ${head.number} is not as it was when it was recorded`;
}
