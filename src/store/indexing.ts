import type { IndexMonth, IndexRow } from "../record/indexRow.ts";
import type { DayFile, LogEntry } from "../record/logEntry.ts";
import { FIRST_PREVIOUS } from "../record/seal.ts";
import { keptSealOf } from "./chainEnd.ts";

/** The index row of an entry; null for one that has none. */
export type DrawRow = (entry: LogEntry) => IndexRow | null;

export const emptyMonth = (month: string): IndexMonth => ({
  schema: "sievewright.index/1",
  month,
  days: {},
  rows: [],
});

/**
 * The index of a month with one of its days brought up to date; the very same index when it was so already. A day that has
 * only grown, as its seals tell, gets the new entries' rows; any other is drawn afresh.
 */
export function withDay(index: IndexMonth, day: DayFile, draw: DrawRow): IndexMonth {
  const last = day.entries.at(-1);
  const lastSeal = last === undefined ? FIRST_PREVIOUS : keptSealOf(last);
  const known = index.days[day.day];
  if (known?.entries === day.entries.length && known.lastSeal === lastSeal) return index;
  const grown = known !== undefined && day.entries[known.entries]?.previous === known.lastSeal;
  const before = grown ? index.rows : index.rows.filter((row) => row.day !== day.day);
  const fresh = day.entries.slice(grown ? known.entries : 0).map(draw);
  return {
    ...index,
    days: { ...index.days, [day.day]: { entries: day.entries.length, lastSeal } },
    rows: [...before, ...fresh.filter((row) => row !== null)].sort((a, b) => a.number - b.number),
  };
}

/** The index without the days that the log has no longer (a file that was set aside); the same one when there is none. */
export function withOnly(index: IndexMonth, days: readonly string[]): IndexMonth {
  const gone = Object.keys(index.days).filter((day) => !days.includes(day));
  if (gone.length === 0) return index;
  return {
    ...index,
    days: Object.fromEntries(Object.entries(index.days).filter(([day]) => !gone.includes(day))),
    rows: index.rows.filter((row) => !gone.includes(row.day)),
  };
}
