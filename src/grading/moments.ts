/** Moments of a distribution; `skewness` and `kurtosis` are null where all lies at one place. */
export interface Moments {
  readonly mean: number;
  readonly sorting: number;
  readonly skewness: number | null;
  readonly kurtosis: number | null;
}

/**
 * Weighted population moments: mean, standard deviation, skewness and kurtosis (a normal distribution has 3).
 *
 *     mean = sum f m,   sd^2 = sum f (m - mean)^2,   Sk = sum f (m - mean)^3 / sd^3,   K = sum f (m - mean)^4 / sd^4
 *
 * @param places m, and as many shares f that add to 1
 * @source W. C. Krumbein and F. J. Pettijohn; S. Boggs, Principles of Sedimentology and Stratigraphy (memory)
 * @example
 * momentsOf([1, 3], [0.5, 0.5]) // => ({ mean: 2, sorting: 1, skewness: 0, kurtosis: 1 })
 */
export function momentsOf(places: readonly number[], shares: readonly number[]): Moments {
  const mean = places.reduce((sum, m, i) => sum + (shares[i] ?? 0) * m, 0);
  const central = (power: number) => places.reduce((sum, m, i) => sum + (shares[i] ?? 0) * (m - mean) ** power, 0);
  const sorting = Math.sqrt(central(2));
  if (sorting === 0) return { mean, sorting, skewness: null, kurtosis: null };
  return { mean, sorting, skewness: central(3) / sorting ** 3, kurtosis: central(4) / sorting ** 4 };
}
