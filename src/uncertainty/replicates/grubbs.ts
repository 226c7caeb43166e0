import { studentTQuantile } from "../distributions/quantiles.ts";
import { summaryOf } from "./summary.ts";

/** "straggler": beyond the 5 % point but not the 1 % point; "outlier": beyond the 1 % point. */
export type OutlierWord = "none" | "straggler" | "outlier";

export const outlierWord = (statistic: number, at5: number, at1: number): OutlierWord => {
  if (statistic > at1) return "outlier";
  return statistic > at5 ? "straggler" : "none";
};

export interface GrubbsTest {
  /** The result that is furthest from the mean, by its place in the list. */
  readonly at: number;
  readonly result: number;
  /** Its distance from the mean in standard deviations. */
  readonly statistic: number;
  readonly critical5: number;
  readonly critical1: number;
  readonly word: OutlierWord;
}

/**
 * Critical value of Grubbs' test for one outlier on either side of n results,
 *
 *     G = (n - 1)/sqrt n sqrt(t^2 / (n - 2 + t^2)),   t the quantile at 1 - risk/(2 n) with n - 2 degrees of freedom
 *
 * @param n at least 3
 * @source F. E. Grubbs, Ann. Math. Statist. 21 (1950) 27-58; the values of ISO 5725-2, table 5 (memory)
 * @example
 * grubbsCritical(10, 0.05).toFixed(3) // => "2.290"
 */
export function grubbsCritical(n: number, risk: number): number {
  if (n < 3) throw new RangeError(`Grubbs' test needs three results, not ${n}`);
  const t = studentTQuantile(1 - risk / (2 * n), n - 2);
  return ((n - 1) / Math.sqrt(n)) * Math.sqrt(t ** 2 / (n - 2 + t ** 2));
}

/**
 * Whether the result furthest from the mean is an outlier: `G = |x - mean| / s`.
 *
 * @returns null for fewer than three results or results without scatter, which cannot be tested
 * @source ISO 5725-2:1994, 7.3.4 (memory)
 */
export function grubbs(results: readonly number[]): GrubbsTest | null {
  const { count, mean, sd } = count3(results);
  if (count < 3 || sd === null || sd === 0) return null;
  const distances = results.map((x) => Math.abs(x - mean));
  const at = distances.indexOf(Math.max(...distances));
  const statistic = (distances[at] ?? 0) / sd;
  const [critical5, critical1] = [grubbsCritical(count, 0.05), grubbsCritical(count, 0.01)];
  const word = outlierWord(statistic, critical5, critical1);
  return { at, result: results[at] ?? 0, statistic, critical5, critical1, word };
}

const count3 = (results: readonly number[]) =>
  results.length === 0 ? { count: 0, mean: 0, sd: null } : summaryOf(results);
