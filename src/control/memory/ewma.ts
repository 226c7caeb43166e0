import { type CentreAndSigma, LIMIT_SIGMAS } from "../limits/chartLimits.ts";

/** How an exponentially weighted moving average is taken. */
export interface EwmaChoice {
  /** Weight of the newest value, above 0 and at most 1. */
  readonly lambda: number;
  /** Half-width L of the limits, in sigma of the average. */
  readonly widthSigmas: number;
  /** Exact limits that open from the first value on, or those that they run towards. */
  readonly limits: "start-up" | "steady";
}

/** lambda 0.2 and 3 sigma: common practice; exact limits by convention CP-15. */
export const USUAL_EWMA: EwmaChoice = { lambda: 0.2, widthSigmas: LIMIT_SIGMAS, limits: "start-up" };

export interface EwmaPoint {
  readonly ewma: number;
  readonly lower: number;
  readonly upper: number;
  /** The side on which the average is strictly outside its limits. */
  readonly side: "above" | "below" | null;
}

/**
 * Exponentially weighted moving average with its limits, in the unit of the values.
 *
 *     z(i) = lambda x(i) + (1 - lambda) z(i-1),   z(0) = centre
 *     centre -+ L sigma sqrt( lambda/(2 - lambda) [1 - (1 - lambda)^(2i)] )       steady: without the bracket
 *
 * @param values one stretch with one centre and sigma; i counts from 1 at its first
 * @throws RangeError for a lambda that is no weight: a fault of the caller
 * @source NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.4; S. W. Roberts, Technometrics 1 (1959) 239-250
 */
export function ewmaOf(
  values: readonly number[],
  { centre, sigma }: CentreAndSigma,
  { lambda, widthSigmas, limits }: EwmaChoice = USUAL_EWMA,
): EwmaPoint[] {
  if (!(lambda > 0 && lambda <= 1)) throw new RangeError(`lambda is above 0 and at most 1, not ${lambda}`);
  let ewma = centre;
  return values.map((value, i) => {
    ewma = lambda * value + (1 - lambda) * ewma;
    const grown = limits === "steady" ? 1 : 1 - (1 - lambda) ** (2 * (i + 1));
    const half = widthSigmas * sigma * Math.sqrt((lambda / (2 - lambda)) * grown);
    const [lower, upper] = [centre - half, centre + half];
    return { ewma, lower, upper, side: ewma > upper ? "above" : ewma < lower ? "below" : null };
  });
}
