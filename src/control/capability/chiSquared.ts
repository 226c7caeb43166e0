import { normalQuantile } from "../../grading/normal.ts";
import { logGamma } from "../constants/logGamma.ts";

const TERMS = 10_000;
const ENOUGH = 1e-16;

/** Lower regularised incomplete gamma function by its series; for x below a + 1. */
function lowerBySeries(a: number, x: number): number {
  let [term, sum] = [1 / a, 1 / a];
  for (let k = 1; k < TERMS && term > sum * ENOUGH; k++) {
    term *= x / (a + k);
    sum += term;
  }
  return sum * Math.exp(a * Math.log(x) - x - logGamma(a));
}

/** Upper regularised incomplete gamma function by its continued fraction (Lentz); for x above a + 1. */
function upperByFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let [c, d] = [Number.MAX_VALUE, 1 / b];
  let fraction = d;
  for (let k = 1; k < TERMS; k++) {
    const over = k * (a - k);
    b += 2;
    d = 1 / (over * d + b);
    c = b + over / c;
    fraction *= c * d;
    if (Math.abs(c * d - 1) < ENOUGH * 8) break;
  }
  return fraction * Math.exp(a * Math.log(x) - x - logGamma(a));
}

/**
 * Chi-squared distribution function: the share below `x`, dimensionless.
 *
 *     P(x; nu) = gamma(nu/2, x/2) / Gamma(nu/2)
 *
 * @param freedom nu, degrees of freedom, above 0; need not be whole
 * @source M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, 6.5 and 26.4 (memory)
 * @example
 * chiSquaredCdf(0, 5) // => 0
 */
export function chiSquaredCdf(x: number, freedom: number): number {
  if (x <= 0) return 0;
  const [a, half] = [freedom / 2, x / 2];
  return half < a + 1 ? lowerBySeries(a, half) : 1 - upperByFraction(a, half);
}

/** The start of Wilson and Hilferty; in the far lower tail the leading term of the series instead. */
function firstGuess(p: number, freedom: number): number {
  const spread = 2 / (9 * freedom);
  const cube = (1 - spread + normalQuantile(p) * Math.sqrt(spread)) ** 3 * freedom;
  const a = freedom / 2;
  return cube > 0.01 * freedom ? cube : 2 * Math.exp((Math.log(p) + logGamma(a + 1)) / a);
}

/**
 * Chi-squared quantile: the x below which the share `p` lies, found by Newton's rule kept inside a narrowing bracket.
 * Relative precision about 1e-12.
 *
 * @param p strictly between 0 and 1; anything else is a fault of the caller and throws
 * @param freedom degrees of freedom, above 0; need not be whole
 * @source E. B. Wilson and M. M. Hilferty, Proc. Natl. Acad. Sci. 17 (1931) 684-688, for the start
 */
export function chiSquaredQuantile(p: number, freedom: number): number {
  if (!(p > 0 && p < 1 && freedom > 0)) throw new RangeError(`no chi-squared quantile for ${p} and ${freedom}`);
  const a = freedom / 2;
  let [low, high, x] = [0, Number.POSITIVE_INFINITY, firstGuess(p, freedom)];
  for (let k = 0; k < 100; k++) {
    const off = chiSquaredCdf(x, freedom) - p;
    if (off > 0) high = x;
    else low = x;
    const density = Math.exp((a - 1) * Math.log(x / 2) - x / 2 - logGamma(a)) / 2;
    const newton = x - off / density;
    const next = newton > low && newton < high ? newton : (low + Math.min(high, 2 * x + 1)) / 2;
    if (Math.abs(next - x) <= 1e-14 * x) return next;
    x = next;
  }
  return x;
}
