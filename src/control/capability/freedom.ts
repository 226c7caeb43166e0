import { type ChartKind, constantsFor } from "../chartKind.ts";
import { logGamma } from "../constants/logGamma.ts";

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

/** Relative variance of a standard deviation with so many degrees of freedom. */
const ofDeviation = (freedom: number): number =>
  (freedom / 2) * Math.exp(2 * (logGamma(freedom / 2) - logGamma((freedom + 1) / 2))) - 1;

/** From here on 1/(2 V) + 1/4 is exact to three digits behind the point. */
const MANY = 100;

/**
 * Effective degrees of freedom nu of a sigma that was taken from the mean of spreads: those of a standard deviation
 * that scatters as much, relative to its size; dimensionless, seldom whole.
 *
 *     V = nu/2 [Gamma(nu/2) / Gamma((nu+1)/2)]^2 - 1,   V = relative variance of the mean spread;   near 1/(2 V) + 1/4
 *
 * Moving ranges give about 0.6 degrees of freedom each, since neighbours share a test.
 *
 * @param spreads how many spreads were averaged, 1 or more
 * @source P. B. Patnaik, Biometrika 37 (1950) 78-87, for ranges (memory); the same idea for moving ranges
 */
export function effectiveFreedom(kind: ChartKind, replicates: number, spreads: number): number {
  const wanted = relativeVariance(kind, replicates, spreads);
  let freedom = 1 / (2 * wanted) + 0.25;
  for (let k = 0; k < 60 && freedom < MANY; k++) {
    const next = (freedom * ofDeviation(freedom)) / wanted;
    if (Math.abs(next - freedom) < 1e-12 * freedom) break;
    freedom = next;
  }
  return freedom;
}
