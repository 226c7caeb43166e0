import { fisherQuantile } from "../distributions/quantiles.ts";
import { type OutlierWord, outlierWord } from "./grubbs.ts";

export interface CochranTest {
  /** The group with the largest scatter, by its place in the list. */
  readonly at: number;
  /** Its part of the sum of all variances. */
  readonly statistic: number;
  readonly critical5: number;
  readonly critical1: number;
  readonly word: OutlierWord;
}

/**
 * Critical value of Cochran's test for the largest of p variances of n results each,
 *
 *     C = 1 / (1 + (p - 1) / F),   F the quantile at 1 - risk/p with n - 1 and (p - 1)(n - 1) degrees of freedom
 *
 * @param p at least 2; n at least 2, for unequal numbers their rounded mean
 * @source W. G. Cochran, Ann. Eugenics 11 (1941) 47-52; the values of ISO 5725-2, table 4 (memory)
 * @example
 * cochranCritical(6, 3, 0.05).toFixed(3) // => "0.616"
 */
export function cochranCritical(p: number, n: number, risk: number): number {
  if (p < 2 || n < 2) throw new RangeError(`Cochran's test needs two groups of two results, not ${p} of ${n}`);
  const f = fisherQuantile(1 - risk / p, n - 1, (p - 1) * (n - 1));
  return 1 / (1 + (p - 1) / f);
}

/**
 * Whether one group scatters more than all others: `C = s_max^2 / sum of s_i^2`. Groups of one result do not count;
 * unequal numbers are taken at their rounded mean, as the standard does where most are equal.
 *
 * @param sds standard deviation of each group, null of a group of one
 * @returns null where fewer than two groups have a scatter, or none scatters at all
 * @source ISO 5725-2:1994, 7.3.3 (memory)
 */
export function cochran(sds: readonly (number | null)[], counts: readonly number[]): CochranTest | null {
  const squares = sds.map((sd) => (sd ?? 0) ** 2);
  const sum = squares.reduce((so, square) => so + square, 0);
  const tested = counts.filter((_, i) => sds[i] !== null);
  if (tested.length < 2 || sum === 0) return null;
  const n = Math.max(2, Math.round(tested.reduce((so, count) => so + count, 0) / tested.length));
  const at = squares.indexOf(Math.max(...squares));
  const statistic = (squares[at] ?? 0) / sum;
  const critical5 = cochranCritical(tested.length, n, 0.05);
  const critical1 = cochranCritical(tested.length, n, 0.01);
  return { at, statistic, critical5, critical1, word: outlierWord(statistic, critical5, critical1) };
}
