import type { Cause } from "./components/component.ts";

/**
 * Combined standard uncertainty of a number with these sensitivities, by first order:
 *
 *     u^2 = c' V c = sum over causes of (sum over inputs of c_j b_j)^2,   V = sum over causes of b b'
 *
 * Causes are independent of each other; what correlates inputs is a cause that changes several of them.
 *
 * @param perInput c_j, in units of the number per unit of input j
 * @returns u in the unit of the number
 * @source JCGM 100:2008 clause 5.2.2, equation 13 (memory)
 */
export function combined(causes: readonly Pick<Cause, "byMassG">[], perInput: Float64Array): number {
  let square = 0;
  for (const { byMassG } of causes) {
    let change = 0;
    for (let j = 0; j < perInput.length; j++) change += (perInput[j] ?? 0) * (byMassG[j] ?? 0);
    square += change * change;
  }
  return Math.sqrt(square);
}

/**
 * Sensitivity to one input from the number at the input a step less and a step more; from one side and the middle where
 * the other side has no number, and 0 where neither has.
 *
 * @source JCGM 100:2008 clause 5.1.3 note 2 (memory)
 * @example
 * slopeOf(3, 4, 7, 2) // => 1
 */
export function slopeOf(low: number | null, middle: number, high: number | null, step: number): number {
  const sides = (low === null ? 0 : 1) + (high === null ? 0 : 1);
  return sides === 0 ? 0 : ((high ?? middle) - (low ?? middle)) / (sides * step);
}
