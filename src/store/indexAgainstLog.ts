import canonicalize from "canonicalize";
import type { IndexMonth } from "../record/indexRow.ts";
import { AmendedTests } from "./amendedTests.ts";
import { type Cabinet, readFrom } from "./cabinet.ts";
import { CareLedgerOf } from "./careLedger.ts";
import { indexCodec } from "./dayCodec.ts";
import { drawnRow, type IndexRowOf } from "./drawnRow.ts";
import { emptyMonth, withDay } from "./indexing.ts";
import { indexPath } from "./layout.ts";
import { Log } from "./log.ts";
import { MonthIndex } from "./monthIndex.ts";

/** How the file of the amended tests is named among the months that are amiss. */
const AMENDED = "amended tests";
/** And that of sieves, balances and weights. */
const CARE = "sieves and balances";

/**
 * Months whose index differs in anything from what is drawn from the log again: rows, later entries, events. A month is in
 * memory at a time. Whether the amended tests follow from the months comes last, under a name of its own.
 */
export async function indexAgainstLog(cabinet: Cabinet, rowOf: IndexRowOf): Promise<readonly string[]> {
  const log = await Log.open(cabinet);
  const amiss: string[] = [];
  for (const month of log.months().toReversed()) {
    const kept = await readFrom(cabinet, indexPath(cabinet.folder, month), indexCodec);
    const same = kept.is === "read" && saidBy(kept.content) === saidBy(await redrawn(cabinet, log, month, rowOf));
    if (!same) amiss.push(month);
  }
  const amended = new AmendedTests(cabinet, log, new MonthIndex(cabinet, log, rowOf), rowOf);
  if (!(await amended.agrees())) amiss.push(AMENDED);
  return (await new CareLedgerOf(cabinet, log).agrees()) ? amiss : [...amiss, CARE];
}

const saidBy = (index: IndexMonth): string | undefined => canonicalize(index);

async function redrawn(cabinet: Cabinet, log: Log, month: string, rowOf: IndexRowOf): Promise<IndexMonth> {
  let drawn = emptyMonth(month);
  for (const day of await log.daysOf(month)) {
    const found = await log.day(day);
    if (found.is !== "read") continue;
    drawn = withDay(drawn, found.content, (entry) =>
      entry.kind === "test" ? drawnRow(cabinet, entry, () => rowOf(entry)) : null,
    );
  }
  return drawn;
}
