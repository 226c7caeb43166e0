import { type Random, wholeBelow } from "../random.ts";
import { deviationOf, middleMean } from "../robust.ts";

/**
 * Length of the blocks of a bootstrap over so many tests: `1.5 n^(1/3)`, rounded, at least 1; long enough that tests
 * of one lot, which are alike, stay together.
 *
 * @source H. R. Kunsch, Ann. Statist. 17 (1989) 1217-1241, for the cube root (memory); the factor is an own choice
 * @example blockLength(40) // => 5
 */
export const blockLength = (tests: number): number => Math.max(1, Math.round(1.5 * Math.cbrt(tests)));

function resampled(numbers: readonly number[], length: number, random: Random): number[] {
  const drawn: number[] = [];
  while (drawn.length < numbers.length) {
    const from = wholeBelow(numbers.length, random);
    for (let i = 0; i < length; i++) drawn.push(numbers[(from + i) % numbers.length] ?? 0);
  }
  return drawn.slice(0, numbers.length);
}

/**
 * Standard error of the robust mean of a series whose neighbours resemble each other, by a circular block bootstrap:
 * the series is put together anew from blocks drawn at random, and the scatter of the means is the answer.
 *
 * @param numbers in the order of time
 * @param random seeded by the caller: the same seed, the same answer
 * @source D. N. Politis and J. P. Romano, A circular block-resampling procedure for stationary data (1992) (memory)
 */
export function blockError(numbers: readonly number[], resamples: number, random: Random): number {
  const length = blockLength(numbers.length);
  return deviationOf(Array.from({ length: resamples }, () => middleMean(resampled(numbers, length, random))));
}
