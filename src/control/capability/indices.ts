import { normalQuantile } from "../../grading/normal.ts";
import { chiSquaredQuantile } from "./chiSquared.ts";

/** What the customer allows, in the unit of the values; null: no limit on that side. Never the limits of a chart. */
export interface Tolerance {
  readonly min: number | null;
  readonly max: number | null;
}

/** A capability index with its confidence bounds, or the reason why there is none. */
export type CapabilityIndex =
  | {
      readonly determinable: true;
      readonly value: number;
      readonly unit: "1";
      readonly lower: number;
      readonly upper: number;
    }
  | { readonly determinable: false; readonly reason: string };

/** What an index is made from. */
export interface Estimate {
  readonly mean: number;
  readonly sigma: number;
  /** Tests behind the mean, and degrees of freedom behind sigma. */
  readonly tests: number;
  readonly freedom: number;
}

const NO_TOLERANCE = "without a limit there is no capability";

/**
 * Spread against tolerance: Cp with the sigma within, Pp with the overall sigma; dimensionless.
 *
 *     C = (max - min) / (6 sigma),   bounds C sqrt( chi2(p; nu) / nu ) at p = (1 - confidence)/2 and 1 - p
 *
 * @returns undetermined unless there is a limit on either side
 * @source NIST/SEMATECH e-Handbook of Statistical Methods 6.1.6
 */
export function spreadIndex(
  { min, max }: Tolerance,
  { sigma, freedom }: Estimate,
  confidence: number,
): CapabilityIndex {
  if (min === null && max === null) return { determinable: false, reason: NO_TOLERANCE };
  if (min === null || max === null) return { determinable: false, reason: "it needs a limit on either side" };
  const found = (max - min) / (6 * sigma);
  const bound = (p: number) => found * Math.sqrt(chiSquaredQuantile(p, freedom) / freedom);
  const tail = (1 - confidence) / 2;
  return { determinable: true, value: found, unit: "1", lower: bound(tail), upper: bound(1 - tail) };
}

/**
 * Distance from the mean to the nearer limit: Cpk with the sigma within, Ppk with the overall sigma; dimensionless,
 * negative where the mean is beyond a limit. With one limit only it is the distance to that one.
 *
 *     C = min(max - mean, mean - min) / (3 sigma),   bounds C -+ z sqrt( 1/(9 n) + C^2/(2 nu) ), approximate
 *
 * @returns undetermined without any limit
 * @source NIST/SEMATECH e-Handbook of Statistical Methods 6.1.6; bounds after A. F. Bissell, Appl. Statist. 39 (1990)
 *   331-340 (memory), with nu in place of n - 1
 */
export function centredIndex({ min, max }: Tolerance, estimate: Estimate, confidence: number): CapabilityIndex {
  const { mean, sigma, tests, freedom } = estimate;
  if (min === null && max === null) return { determinable: false, reason: NO_TOLERANCE };
  const room = Math.min(
    max === null ? Number.POSITIVE_INFINITY : max - mean,
    min === null ? Number.POSITIVE_INFINITY : mean - min,
  );
  const found = room / (3 * sigma);
  const half = normalQuantile((1 + confidence) / 2) * Math.sqrt(1 / (9 * tests) + found ** 2 / (2 * freedom));
  return { determinable: true, value: found, unit: "1", lower: found - half, upper: found + half };
}
