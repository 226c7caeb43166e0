import type { DayFile, Head, LogEntry } from "../../src/record/logEntry.ts";
import { NO_HEAD } from "../../src/store/chainEnd.ts";
import { chained } from "../../src/store/chained.ts";
import { must } from "./opened.ts";
import { note } from "./records.ts";

/** A sound chain of notes, so many for each day, and where it ends. */
export function chainOf(counts: Readonly<Record<string, number>>): { days: DayFile[]; head: Head } {
  let head = NO_HEAD;
  const days = Object.entries(counts).map(([day, count]): DayFile => {
    const notes = Array.from({ length: count }, (_, i) => note(`${i + 1} of ${day}`, `${day}T10:00:00+01:00`));
    const { sealed, end } = must(chained(head, day, "TH-DRY1", notes));
    head = end;
    return { schema: "sievewright.day/1", day, entries: [...sealed] };
  });
  return { days, head };
}

export const entriesOf = (days: readonly DayFile[]): LogEntry[] => days.flatMap((day) => day.entries);
