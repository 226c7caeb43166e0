/** The middle of some numbers; of an even count the mean of the middle two. NaN of nothing: ask `length` first. */
export function medianOf(numbers: readonly number[]): number {
  const sorted = numbers.toSorted((a, b) => a - b);
  const half = sorted.length / 2;
  const [low = Number.NaN, high = low] = [sorted[Math.ceil(half) - 1], sorted[Math.floor(half)]];
  return (low + high) / 2;
}

/** The share of a normal distribution's deviation that its median absolute deviation is, inverted. */
const MAD_TO_DEVIATION = 1.482602218505602;

/**
 * Standard deviation of the scatter from one number to the next, deaf to a drift and to single wild numbers:
 *
 *     s = 1.4826 median(|x_i - x_(i-1)|) / sqrt 2
 *
 * @returns 0 for fewer than three numbers, which is to be floored by what the balance can tell
 * @source median absolute deviation, consistent for the normal distribution: common practice, no source
 * @example scatterOf([1, 1, 1, 9, 1, 1]) // => 0
 */
export function scatterOf(numbers: readonly number[]): number {
  if (numbers.length < 3) return 0;
  const steps = numbers.slice(1).map((next, i) => Math.abs(next - (numbers[i] ?? next)));
  return (MAD_TO_DEVIATION * medianOf(steps)) / Math.SQRT2;
}

/** A fifth is left out at each end. */
const TRIMMED = 0.2;

/**
 * Robust mean: the mean of what is left after a fifth of the numbers, rounded down, is cut off at each end.
 *
 * @returns NaN of nothing
 * @source trimmed mean, common practice
 * @example middleMean([1, 2, 3, 4, 1000]) // => 3
 */
export function middleMean(numbers: readonly number[]): number {
  const cut = Math.floor(TRIMMED * numbers.length);
  const kept = numbers.toSorted((a, b) => a - b).slice(cut, numbers.length - cut);
  return kept.reduce((sum, n) => sum + n, 0) / kept.length;
}

export const meanOf = (numbers: readonly number[]): number => numbers.reduce((sum, n) => sum + n, 0) / numbers.length;

/** Standard deviation of a sample, with n - 1; NaN for fewer than two numbers. */
export function deviationOf(numbers: readonly number[]): number {
  const mean = meanOf(numbers);
  const squares = numbers.reduce((sum, n) => sum + (n - mean) ** 2, 0);
  return numbers.length < 2 ? Number.NaN : Math.sqrt(squares / (numbers.length - 1));
}
