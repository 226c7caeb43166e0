import type { IndexMonth } from "../record/indexRow.ts";
import type { DayFile } from "../record/logEntry.ts";
import { keptSealOf } from "./chainEnd.ts";

/**
 * What an index knows that a day hasn't any more, in words; null when there is nothing. It is drawn after the day was written,
 * so it can lag behind, but entries that only the index knows were there once.
 */
export function lostSinceIndex(index: Pick<IndexMonth, "days">, { day, entries }: DayFile): string | null {
  const known = index.days[day];
  if (known === undefined || known.entries === 0) return null;
  const last = entries[known.entries - 1];
  if (last === undefined)
    return `the index knows ${known.entries} entries of ${day}, its file holds ${entries.length}: entries were cut off`;
  return keptSealOf(last) === known.lastSeal
    ? null
    : `the entries of ${day} up to no. ${last.number} are not those that the index was drawn from`;
}

/** Days with entries that the index knows and the log has no file of. */
export const lostDays = (index: Pick<IndexMonth, "days">, days: readonly string[]): readonly string[] =>
  Object.entries(index.days)
    .filter(([day, { entries }]) => entries > 0 && !days.includes(day))
    .map(([day, { entries }]) => `the index knows ${entries} entries of ${day}, whose file is gone from the log`);
