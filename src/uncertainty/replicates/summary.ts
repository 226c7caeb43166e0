/** Mean and scatter of results of one kind. */
export interface Summary {
  readonly count: number;
  readonly mean: number;
  /** Standard deviation with n - 1; null of a single result. */
  readonly sd: number | null;
}

/**
 * Mean and standard deviation (n - 1).
 *
 * @param results at least one; of none a fault of the caller that throws
 * @example
 * summaryOf([1, 2, 3]) // => ({ count: 3, mean: 2, sd: 1 })
 */
export function summaryOf(results: readonly number[]): Summary {
  const count = results.length;
  if (count === 0) throw new RangeError("a summary needs a result");
  const mean = results.reduce((sum, x) => sum + x, 0) / count;
  const squares = results.reduce((sum, x) => sum + (x - mean) ** 2, 0);
  return { count, mean, sd: count > 1 ? Math.sqrt(squares / (count - 1)) : null };
}
