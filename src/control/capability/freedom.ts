import { type ChartKind, constantsFor } from "../chartKind.ts";

/**
 * Covariance of two moving ranges that share a test, of independent values with standard deviation 1: the absolute
 * values of two normal differences, each with variance 2, that are correlated by -1/2.
 */
const NEIGHBOURS = (4 / Math.PI) * (Math.sqrt(3) / 2 + Math.PI / 12 - 1);

/** Relative variance of the mean of so many spreads. */
function relativeVariance(kind: ChartKind, replicates: number, spreads: number): number {
  const { d2, d3, c4 } = constantsFor(kind, replicates);
  if (kind === "mean-and-deviation") return (1 - c4 * c4) / (c4 * c4 * spreads);
  const shared = kind === "individuals" ? (2 * NEIGHBOURS * (spreads - 1)) / spreads : 0;
  return (d3 * d3 + shared) / (d2 * d2 * spreads);
}

/**
 * Effective degrees of freedom of a sigma that was taken from the mean of spreads: those of a standard deviation that
 * scatters as much, relative to its size; dimensionless, not whole.
 *
 *     nu = 1/(2 V) + 1/4,   V = relative variance of the mean spread
 *
 * Moving ranges give about 0.6 degrees of freedom each, since neighbours share a test.
 *
 * @param spreads how many spreads were averaged
 * @source P. B. Patnaik, Biometrika 37 (1950) 78-87, for ranges (memory); the same idea for moving ranges
 */
export const effectiveFreedom = (kind: ChartKind, replicates: number, spreads: number): number =>
  1 / (2 * relativeVariance(kind, replicates, spreads)) + 0.25;
