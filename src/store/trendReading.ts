import { type IndexRow, isCounted } from "../record/indexRow.ts";
import { dayMayHold, holds, type Period } from "../record/period.ts";
import { isAdjustment, type LineEvent } from "../shift/lineState.ts";
import type { LimitsFrozen, TrendRows } from "../shift/trend.ts";
import type { Store } from "./store.ts";

/** How far back a trend reaches: so many tests that count at least, or all of a period. */
export interface TrendReach {
  readonly tests: number | null;
  readonly period: Period;
}

export interface TrendRead extends TrendRows {
  /** Whether there are older months that were not read. */
  readonly older: boolean;
}

export const ANY_TIME: Period = { since: null, until: null };

/** A product that is tested seldom is not looked for through ten years: no farther back than this, unless a day is named. */
export const MOST_MONTHS = 24;

const beganBefore = ({ until }: Period, month: string): boolean => dayMayHold({ since: null, until }, `${month}-01`);
const endedAfter = ({ since }: Period, month: string): boolean => dayMayHold({ since, until: null }, `${month}-31`);

function isEnough({ tests, period }: TrendReach, month: string, rows: readonly IndexRow[], read: number): boolean {
  if (!endedAfter(period, month)) return true;
  if (tests !== null && rows.filter(isCounted).length >= tests) return true;
  return period.since === null && read >= MOST_MONTHS;
}

const logged = async (store: Store, month: string, line: string): Promise<readonly LineEvent[]> =>
  (await store.events(month)).filter(
    (event): event is LineEvent => event.kind === "line adjusted" && event.line === line,
  );

/** The moment from which the newest frozen limits of each figure hold, the earliest of these. */
function heldSinceMs(frozen: readonly LimitsFrozen[]): number {
  const newest = new Map<string, number>();
  for (const { on, sinceAt } of frozen) newest.set(on, Math.max(newest.get(on) ?? 0, Date.parse(sinceAt)));
  return Math.min(...newest.values());
}

/**
 * Frozen limits hold until the line was adjusted, so what was logged before the first row decides whether they still do:
 * months are read back to where the limits began, or to the last adjustment if that is nearer.
 */
async function earlierEvents(
  store: Store,
  line: string,
  months: readonly string[],
  frozen: readonly LimitsFrozen[],
): Promise<readonly LineEvent[]> {
  const sinceMs = heldSinceMs(frozen);
  const found: LineEvent[] = [];
  for (const month of months) {
    if (!endedAfter({ since: { atMs: sinceMs }, until: null }, month) || found.some(isAdjustment)) break;
    found.unshift(...(await logged(store, month, line)));
  }
  return found;
}

const isOf =
  (product: string, line: string) =>
  (one: { readonly product: string; readonly line: string }): boolean =>
    one.product === product && one.line === line;

/**
 * The tests of a product on a line, and what was logged of that line meanwhile. Index months are read from the newest back,
 * no more of them than are needed: for the last 200 tests of a busy line that is one month or two of ten years.
 */
export async function readTrend(store: Store, product: string, line: string, reach: TrendReach): Promise<TrendRead> {
  const frozen = (await store.matters())
    .filter((matter): matter is LimitsFrozen => matter.kind === "limits frozen")
    .filter(isOf(product, line));
  const months = store.indexMonths().filter((month) => beganBefore(reach.period, month));
  let rows: readonly IndexRow[] = [];
  let events: readonly LineEvent[] = [];
  let read = 0;
  for (const month of months) {
    if (isEnough(reach, month, rows, read)) break;
    const found = (await store.indexRows(month)).filter(isOf(product, line)).filter((row) => holds(reach.period, row));
    rows = [...found, ...rows];
    events = [...(await logged(store, month, line)), ...events];
    read += 1;
  }
  const earlier = frozen.length > 0 ? await earlierEvents(store, line, months.slice(read), frozen) : [];
  return { rows, events: [...earlier, ...events], frozen, older: read < months.length };
}

/** The lines that a product was tested on in its newest month with tests, the one tested last in front. */
export async function linesOf(store: Store, product: string): Promise<readonly string[]> {
  for (const month of store.indexMonths().slice(0, MOST_MONTHS)) {
    const rows = (await store.indexRows(month)).filter((row) => row.product === product);
    if (rows.length > 0) return [...new Set(rows.toReversed().map((row) => row.line))];
  }
  return [];
}
