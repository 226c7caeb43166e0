import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { type IndexRow, IndexRowSchema } from "../record/indexRow.ts";
import type { TestEntry } from "../record/logEntry.ts";
import { faultInWords } from "../record/migrate.ts";
import { type Cabinet, report } from "./cabinet.ts";

export type IndexRowOf = (entry: TestEntry) => IndexRow;

/** The row of an entry; one that can't be drawn is told, and there is none. */
export function drawnRow(cabinet: Cabinet, { number }: TestEntry, draw: () => IndexRow): IndexRow | null {
  const row = rowOrFault(draw);
  if (row.ok) return row.value;
  report(
    cabinet,
    `entry ${number} is in the log but can't be listed: ${row.reason}. It is tried again at the next opening`,
  );
  return null;
}

/** A row that can't be drawn, even by a fault of the program, must not hold up the record that it is drawn from. */
function rowOrFault(draw: () => IndexRow): Outcome<IndexRow> {
  try {
    const row = IndexRowSchema.safeParse(draw());
    return row.success ? accepted(row.data) : refused(faultInWords(row.error));
  } catch (fault) {
    return refused(String(fault));
  }
}
