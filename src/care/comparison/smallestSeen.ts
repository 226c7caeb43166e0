import { type Determination, determined, undetermined } from "../../record/determination.ts";
import { studentQuantile } from "../studentT.ts";

/** Beyond so many pairs a difference counts as never seen. */
const MOST_PAIRS = 1000;
/** How surely a difference is to be seen, where nothing else is said. */
export const POWER = 0.9;

/** Chance of a false bias over all apertures, and how surely a true one is to be seen. */
export interface Seeing {
  readonly alpha: number;
  readonly power?: number;
}

const factor = (pairs: number, { alpha, power = POWER }: Seeing): number =>
  (studentQuantile(1 - alpha / 2, pairs - 1) + studentQuantile(power, pairs - 1)) / Math.sqrt(pairs);

/**
 * The smallest mean difference that so many pairs would show nine times in ten:
 *
 *     x = (t_(1 - alpha/2) + t_power) s / sqrt n,   n - 1 degrees of freedom
 *
 * In the unit of s, the standard deviation of the paired differences.
 *
 * @returns not determinable for fewer than two pairs
 * @source approximation by two t quantiles for the power of the paired t test, common practice
 */
export function smallestSeen(deviation: number, pairs: number, seeing: Seeing): Determination {
  if (pairs < 2) return undetermined("one pair shows no scatter: two are needed at least");
  return determined(factor(pairs, seeing) * deviation, "%");
}

/**
 * The fewest pairs that would show a mean difference of `x`, nine times in ten.
 *
 * @param deviation standard deviation of the paired differences, in the unit of x, both above 0
 * @returns unit "1"; not determinable above 1000 pairs
 * @source as smallestSeen
 * @example pairsToSee(1, 1, { alpha: 0.05 }) // => { determinable: true, value: 13, unit: "1" }
 */
export function pairsToSee(x: number, deviation: number, seeing: Seeing): Determination {
  if (!(x > 0)) return undetermined("a difference to be seen is above 0");
  const seen = (pairs: number): boolean => factor(pairs, seeing) * deviation <= x;
  let [few, many] = [1, 2];
  while (!seen(many) && many <= MOST_PAIRS) [few, many] = [many, 2 * many];
  while (many - few > 1) {
    const middle = Math.floor((few + many) / 2);
    if (middle > 1 && seen(middle)) many = middle;
    else few = middle;
  }
  return many > MOST_PAIRS ? undetermined(`more than ${MOST_PAIRS} pairs would be needed`) : determined(many, "1");
}
