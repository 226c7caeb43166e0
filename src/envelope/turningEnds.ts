import Big from "big.js";
import { roundHalfEvenToStep } from "../grading/rounding.ts";
import type { Decision } from "../record/decision.ts";
import type { LimitRange } from "../uncertainty/decision/limitRange.ts";

/** The number next to a turning point on the side that still rounds to where it should. */
const beside = (at: number, outwards: -1 | 1): number => at - outwards * Number.EPSILON * Math.max(1, Math.abs(at));

/** The number that just still rounds to `bound` or further inside, half a step outside the first multiple that does. */
function turn(bound: number, step: number, outwards: -1 | 1): number {
  const multiples = Big(bound).div(step);
  const inside = multiples.round(0, outwards < 0 ? Big.roundUp : Big.roundDown);
  // Big rounds up and down by size: for a negative bound the other way.
  const first = bound >= 0 ? inside : multiples.round(0, outwards < 0 ? Big.roundDown : Big.roundUp);
  const at = first.times(step).plus(Big(step).div(2).times(outwards)).toNumber();
  const rounded = roundHalfEvenToStep(at, step);
  return outwards < 0 ? (rounded >= bound ? at : beside(at, outwards)) : rounded <= bound ? at : beside(at, outwards);
}

/**
 * The ends at which a limit really turns. Where values are compared as computed these are the limit's own; where they are
 * rounded to a step first, half a step further out: of a limit of at least 95 compared in whole percent the end is 94.5,
 * just above it or on it as halves go to even. Guard bands and chances are counted from these ends, so that rounding
 * neither eats a guard band nor counts for one.
 *
 * @source common practice, no source: JCGM 106 knows no rounding before the comparison
 * @example
 * turningEnds({ min: 95, max: null }, { roundedTo: 1 }) // => ({ min: 94.50000000000001, max: null })
 */
export function turningEnds({ min, max }: LimitRange, compare: Decision["compare"]): LimitRange {
  if (compare === undefined || compare === "absolute") return { min, max };
  const { roundedTo } = compare;
  return {
    min: min === null ? null : turn(min, roundedTo, -1),
    max: max === null ? null : turn(max, roundedTo, 1),
  };
}
