import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { type Head, type LogEntry, LogEntrySchema, type NewEntry } from "../record/logEntry.ts";
import { faultInWords } from "../record/migrate.ts";
import { headAt } from "./chainEnd.ts";

/** Sealed entries, and the end of the chain behind them. */
export interface Chained {
  readonly sealed: readonly LogEntry[];
  readonly end: Head;
}

/** Gives entries their numbers, day, station and the seal of the one before; refused when one would not be read back. */
export function chained(head: Head, day: string, station: string, entries: readonly NewEntry[]): Outcome<Chained> {
  const sealed: LogEntry[] = [];
  let end = head;
  for (const entry of entries) {
    const numbered = { ...entry, number: end.number + 1, day, station, previous: end.seal };
    const parsed = LogEntrySchema.safeParse(numbered);
    if (!parsed.success) return refused(`the entry can't be recorded: ${faultInWords(parsed.error)}`);
    sealed.push(parsed.data);
    end = headAt(parsed.data);
  }
  return accepted({ sealed, end });
}
