import { normalQuantile } from "../../grading/normal.ts";
import { medianOf, medianOfSorted } from "../summary.ts";
import { mannKendall } from "./mannKendall.ts";

/** A robust slope with its confidence interval, in the unit of the values per step. */
export interface TheilSen {
  readonly slope: number;
  readonly lower: number;
  readonly upper: number;
}

/** Slopes between all pairs, in rising order. */
function slopesBetween(values: readonly number[]): Float64Array {
  const n = values.length;
  const slopes = new Float64Array((n * (n - 1)) / 2);
  let k = 0;
  for (const [j, later] of values.entries()) {
    for (let i = 0; i < j; i++) slopes[k++] = (later - (values[i] ?? later)) / (j - i);
  }
  return slopes.sort();
}

/**
 * Slope of Theil and Sen, one value a step: the median of the slopes between all pairs; a few wild values don't move
 * it. Its interval comes from the variance of Kendall's score, corrected for ties.
 *
 *     C = z sqrt(var S);   bounds: the slopes of rank (N - C)/2 and (N + C)/2 + 1 of N, in rising order
 *
 * @param values two or more, in their order; fewer are a fault of the caller and throw
 * @source P. K. Sen, J. Am. Stat. Assoc. 63 (1968) 1379-1389 (memory)
 * @example
 * theilSen([1, 3, 5, 7, 70]).slope // => 2
 */
export function theilSen(values: readonly number[], confidence = 0.95): TheilSen {
  const slopes = slopesBetween(values);
  const reach = normalQuantile((1 + confidence) / 2) * Math.sqrt(mannKendall(values).variance);
  const rank = (of: number) => slopes[Math.min(slopes.length - 1, Math.max(0, of))] ?? Number.NaN;
  return {
    slope: medianOfSorted(Array.from(slopes)),
    lower: rank(Math.round((slopes.length - reach) / 2) - 1),
    upper: rank(Math.round((slopes.length + reach) / 2)),
  };
}

/**
 * Where a line of this slope through the middle of the values stands at the newest of them, in their unit:
 * the median of `x(i) - slope i`, and `slope` times the newest i.
 */
export const levelAtNewest = (values: readonly number[], slope: number): number =>
  medianOf(values.map((value, i) => value - slope * i)) + slope * (values.length - 1);
