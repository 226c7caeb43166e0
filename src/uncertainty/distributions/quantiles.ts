import { incompleteBeta } from "./incompleteBeta.ts";
import { incompleteGamma } from "./incompleteGamma.ts";
import { invert } from "./invert.ts";

function mustBeShare(p: number, of: string): void {
  if (!(p > 0 && p < 1)) throw new RangeError(`${of} needs a share between 0 and 1, not ${p}`);
}

/** Share of a chi-square distribution below `x`, for any degrees of freedom above 0. */
export const chiSquareCdf = (x: number, degrees: number): number => incompleteGamma(degrees / 2, x / 2);

/**
 * Chi-square quantile: below it lies the share `p`.
 *
 * @source inverts chiSquareCdf
 * @example
 * chiSquareQuantile(0.95, 2).toFixed(6) // => (-2 * Math.log(0.05)).toFixed(6)
 */
export function chiSquareQuantile(p: number, degrees: number): number {
  mustBeShare(p, "chiSquareQuantile");
  return invert((x) => chiSquareCdf(x, degrees), p);
}

/** Share of Fisher's F distribution below `f`. */
export const fisherCdf = (f: number, over: number, under: number): number =>
  incompleteBeta((over * f) / (over * f + under), over / 2, under / 2);

/**
 * Quantile of Fisher's F, the ratio of two variances with `over` and `under` degrees of freedom. For shares near 1
 * the upper tail is inverted, which keeps its digits.
 *
 * @source inverts the incomplete beta function
 * @example
 * fisherQuantile(0.5, 7, 7).toFixed(9) // => "1.000000000"
 */
export function fisherQuantile(p: number, over: number, under: number): number {
  mustBeShare(p, "fisherQuantile");
  const tail = (f: number) => incompleteBeta(under / (over * f + under), under / 2, over / 2);
  return p > 0.5 ? invert((f) => -tail(f), p - 1) : invert((f) => fisherCdf(f, over, under), p);
}

/**
 * Quantile of Student's t: below it lies the share `p`. Squared, t with n degrees of freedom is F with 1 and n.
 *
 * @source inverts the incomplete beta function
 * @example
 * studentTQuantile(0.75, 1).toFixed(9) // => "1.000000000"
 */
export function studentTQuantile(p: number, degrees: number): number {
  mustBeShare(p, "studentTQuantile");
  if (p === 0.5) return 0;
  if (p < 0.5) return -studentTQuantile(1 - p, degrees);
  const tail = (t: number) => incompleteBeta(degrees / (degrees + t * t), degrees / 2, 0.5) / 2;
  return invert((t) => -tail(t), p - 1);
}
