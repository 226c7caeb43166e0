import { type Determination, determined, undetermined } from "../../record/determination.ts";
import { powerOf, powerWith } from "./power.ts";

/** Beyond so many pairs a difference counts as never seen. */
const MOST_PAIRS = 1000;
/** How surely a difference is to be seen, where nothing else is said. */
export const POWER = 0.9;
const HALVINGS = 30;

/** Chance of a false bias, and how surely a true one is to be seen. */
export interface Seeing {
  readonly alpha: number;
  readonly power?: number;
}

/** The lowest number at which a rising condition holds, by halving; it holds at `high`. */
function lowest(low: number, high: number, holds: (at: number) => boolean): number {
  let [below, above] = [low, high];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (below + above) / 2;
    if (holds(middle)) above = middle;
    else below = middle;
  }
  return above;
}

/**
 * The smallest mean difference that so many pairs would show nine times in ten by the paired t test, in the unit of
 * the deviation.
 *
 * @param deviation standard deviation of the paired differences, in % passing
 * @returns unit "%"; not determinable for fewer than two pairs
 * @source power of the paired t test, as `powerOf`
 */
export function smallestSeen(deviation: number, pairs: number, { alpha, power = POWER }: Seeing): Determination {
  if (pairs < 2) return undetermined("one pair shows no scatter: two are needed at least");
  const powerAt = powerWith(pairs, alpha);
  const seen = (difference: number): boolean => powerAt(difference) >= power;
  let high = 1;
  while (!seen(high)) high *= 2;
  return determined(lowest(0, high, seen) * deviation, "%");
}

/**
 * The fewest pairs that would show a mean difference of `x` nine times in ten.
 *
 * @param deviation standard deviation of the paired differences, in the unit of x
 * @returns unit "1"; not determinable above 1000 pairs
 * @source as smallestSeen
 * @example pairsToSee(1, 1, { alpha: 0.05 }) // => { determinable: true, value: 13, unit: "1" }
 */
export function pairsToSee(x: number, deviation: number, { alpha, power = POWER }: Seeing): Determination {
  if (!(x > 0)) return undetermined("a difference to be seen is above 0");
  const seen = (pairs: number): boolean => powerOf(x / deviation, pairs, alpha) >= power;
  if (deviation === 0 || seen(2)) return determined(2, "1");
  let [few, many] = [2, 4];
  while (many <= MOST_PAIRS && !seen(many)) [few, many] = [many, 2 * many];
  while (many <= 2 * MOST_PAIRS && many - few > 1) {
    const middle = Math.floor((few + many) / 2);
    if (seen(middle)) many = middle;
    else few = middle;
  }
  return many > MOST_PAIRS ? undetermined(`more than ${MOST_PAIRS} pairs would be needed`) : determined(many, "1");
}
