const KEPT_DIGITS = 12;

/** Rounds at the 12th significant digit of `largestG`: far below any balance, far above binary noise. */
function withoutNoise(massG: number, largestG: number): number {
  if (massG === 0 || largestG === 0) return 0;
  const decimals = KEPT_DIGITS - 1 - Math.floor(Math.log10(largestG));
  const scale = 10 ** Math.min(Math.max(decimals, 0), 22);
  return Math.round(massG * scale) / scale + 0;
}

/**
 * Net mass of a fraction in g: sieve with its fraction minus sieve alone, without binary noise. The difference is
 * rounded at the 12th significant digit of the larger weighing, so the result is the decimal that a person would
 * write down. Negative where full is below empty.
 *
 * @param fullG and emptyG finite masses from 1e-10 to 1e12 g, or 0
 * @example
 * netMassG(418.02, 412.31) // => 5.71
 * netMassG(412.31, 418.02) // => -5.71
 */
export const netMassG = (fullG: number, emptyG: number): number =>
  withoutNoise(fullG - emptyG, Math.max(Math.abs(fullG), Math.abs(emptyG)));

/**
 * Sum of masses in g, in any order to the same last digit: compensated, then rounded at the 12th significant digit.
 * The sum of nothing is 0.
 *
 * @source A. Neumaier, Z. angew. Math. Mech. 54 (1974) 39-51 (compensated summation)
 * @example
 * sumG([0.1, 0.2, 0.3]) // => 0.6
 */
export function sumG(massesG: readonly number[]): number {
  let sum = 0;
  let lost = 0;
  for (const massG of massesG) {
    const next = sum + massG;
    lost += Math.abs(sum) >= Math.abs(massG) ? sum - next + massG : massG - next + sum;
    sum = next;
  }
  return withoutNoise(sum + lost, Math.abs(sum + lost));
}

/**
 * What one sieve holds over all portions in g, `net = sum of (full - empty)`; null while its empty or its latest full
 * mass is missing. Without earlier portions it is `full - empty`.
 */
export function netOfWeighingG(weighing: {
  readonly emptyG: number | null;
  readonly fullG: number | null;
  readonly earlierFullG?: readonly number[] | undefined;
}): number | null {
  const { emptyG, fullG, earlierFullG = [] } = weighing;
  if (emptyG === null || fullG === null) return null;
  return sumG([...earlierFullG, fullG].map((full) => netMassG(full, emptyG)));
}
