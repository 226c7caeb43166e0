import { normalCdf } from "../grading/normal.ts";
import type { Bounds } from "./measurand.ts";

/** Coverage factor of every expanded uncertainty that is shown: about 95 % of a normal distribution. */
export const COVERAGE_FACTOR = 2;

export interface Interval {
  readonly low: number;
  readonly high: number;
  /** Part of `value +- U` lay beyond what can be (0 and 100 %, a size below 0) and was cut off. */
  readonly cut: boolean;
}

/**
 * The interval `value +- 2 u`, cut at what the quantity can be. It holds at least 95.45 % of the normal distribution
 * that is itself cut there: nothing of the interval that is cut off could have come true.
 *
 * @example
 * coverageInterval(0.4, 0.3, { low: 0, high: 100 }) // => ({ low: 0, high: 1, cut: true })
 */
export function coverageInterval(value: number, u: number, { low, high }: Bounds): Interval {
  const [from, to] = [value - COVERAGE_FACTOR * u, value + COVERAGE_FACTOR * u];
  const [least, most] = [low ?? Number.NEGATIVE_INFINITY, high ?? Number.POSITIVE_INFINITY];
  return { low: Math.max(from, least), high: Math.min(to, most), cut: from < least || to > most };
}

/**
 * The chance that the quantity lies between `from` and `to` (null: open), given what was found and its standard
 * uncertainty: a normal distribution cut at what can be and scaled to 1 again.
 *
 *     p = [Phi((b - y)/u) - Phi((a - y)/u)] / [Phi((high - y)/u) - Phi((low - y)/u)]
 *
 * Without uncertainty it is 1 or 0, bounds inclusive.
 *
 * @source JCGM 106:2012 clause 7 (memory); the cut normal is the maximum-entropy choice with a bound known
 */
export function chanceBetween(
  y: number,
  u: number,
  from: number | null,
  to: number | null,
  can: Bounds = { low: null, high: null },
): number {
  const [a, b] = [from ?? Number.NEGATIVE_INFINITY, to ?? Number.POSITIVE_INFINITY];
  if (u === 0) return y >= a && y <= b ? 1 : 0;
  const [least, most] = [can.low ?? Number.NEGATIVE_INFINITY, can.high ?? Number.POSITIVE_INFINITY];
  const [start, end] = [Math.max(a, least), Math.min(b, most)];
  if (start > end) return 0;
  return Math.min(1, massBetween(y, u, start, end) / massBetween(y, u, least, most));
}

/** Share of the normal between two points, from whichever tail keeps the digits. */
function massBetween(y: number, u: number, from: number, to: number): number {
  const [a, b] = [(from - y) / u, (to - y) / u];
  return a > 0 ? normalCdf(-a) - normalCdf(-b) : normalCdf(b) - normalCdf(a);
}
