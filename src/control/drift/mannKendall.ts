import { normalCdf } from "../../grading/normal.ts";

/** How surely values rise or fall in their order. */
export interface MannKendall {
  /** Pairs that rise less pairs that fall. */
  readonly score: number;
  /** Variance of the score if there were no trend, corrected for ties. */
  readonly variance: number;
  /** Two-sided: the share of trendless sets with a score as far from 0, or farther; 1 where all values are alike. */
  readonly p: number;
}

/** Sum over groups of t equal values of t (t-1) (2t+5). */
function tieTerm(values: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts.values()].reduce((sum, t) => sum + t * (t - 1) * (2 * t + 5), 0);
}

/**
 * Mann-Kendall test for a trend, one value a step; it asks nothing of the distribution, but that values without a
 * trend be independent.
 *
 *     S = sum over i < j of sign(x(j) - x(i))      var S = [n (n-1) (2n+5) - sum of t (t-1) (2t+5)] / 18
 *     z = (S -+ 1) / sqrt(var S), towards 0        p = 2 Phi(-|z|)
 *
 * Good from about ten values on.
 *
 * @source H. B. Mann, Econometrica 13 (1945) 245-259; M. G. Kendall, Rank Correlation Methods; both from memory
 * @example
 * mannKendall([1, 2, 3]).score // => 3
 */
export function mannKendall(values: readonly number[]): MannKendall {
  const n = values.length;
  let score = 0;
  for (const [j, later] of values.entries()) {
    for (let i = 0; i < j; i++) score += Math.sign(later - (values[i] ?? later));
  }
  const variance = (n * (n - 1) * (2 * n + 5) - tieTerm(values)) / 18;
  const towardsZero = Math.max(0, Math.abs(score) - 1);
  return { score, variance, p: variance > 0 ? 2 * normalCdf(-towardsZero / Math.sqrt(variance)) : 1 };
}
