import { fisherQuantile, studentTQuantile } from "../distributions/quantiles.ts";

/**
 * Critical value of Mandel's h for p stations: `h = (p - 1) t / sqrt(p (p - 2 + t^2))`, t at 1 - risk/2 with p - 2
 * degrees of freedom.
 *
 * @param p at least 3
 * @source ISO 5725-2:1994, 7.3.1 and ASTM E691 (memory)
 * @example
 * mandelH(8, 0.005).toFixed(2) // => "2.15"
 */
export function mandelH(p: number, risk: number): number {
  if (p < 3) throw new RangeError(`Mandel's h needs three stations, not ${p}`);
  const t = studentTQuantile(1 - risk / 2, p - 2);
  return ((p - 1) * t) / Math.sqrt(p * (p - 2 + t ** 2));
}

/**
 * Critical value of Mandel's k for p stations with n results each: `k = sqrt(p / (1 + (p - 1) / F))`, F at 1 - risk
 * with n - 1 and (p - 1)(n - 1) degrees of freedom.
 *
 * @param p at least 2; n at least 2
 * @source ISO 5725-2:1994, 7.3.1 and ASTM E691 (memory)
 * @example
 * mandelK(8, 3, 0.005).toFixed(2) // => "2.06"
 */
export function mandelK(p: number, n: number, risk: number): number {
  if (p < 2 || n < 2) throw new RangeError(`Mandel's k needs two stations of two results, not ${p} of ${n}`);
  return Math.sqrt(p / (1 + (p - 1) / fisherQuantile(1 - risk, n - 1, (p - 1) * (n - 1))));
}
