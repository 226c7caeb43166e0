/** Arithmetic mean, in the unit of the values; of no value at all it is a fault of the caller and throws. */
export function meanOf(values: readonly number[]): number {
  if (values.length === 0) throw new RangeError("there is no mean of nothing");
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/**
 * Standard deviation of a sample (divisor n - 1), in the unit of the values; 0 for a single value.
 *
 * @example
 * deviationOf([1, 3]) // => Math.SQRT2
 */
export function deviationOf(values: readonly number[]): number {
  if (values.length < 2) return 0;
  const mean = meanOf(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
}

/** Median of values in rising order: the middle one, or the mean of the middle two. */
export function medianOfSorted(rising: readonly number[]): number {
  const [low, high] = [rising[Math.ceil(rising.length / 2) - 1], rising[Math.floor(rising.length / 2)]];
  if (low === undefined || high === undefined) throw new RangeError("there is no median of nothing");
  return (low + high) / 2;
}

/**
 * Median, in the unit of the values.
 *
 * @example
 * medianOf([4, 1, 2, 30]) // => 3
 */
export const medianOf = (values: readonly number[]): number => medianOfSorted(values.toSorted((a, b) => a - b));
