import { logGamma } from "./logGamma.ts";

const TINY = 1e-300;
const STEPS = 5000;

const notZero = (x: number): number => (Math.abs(x) < TINY ? TINY : x);

/** The continued fraction of the incomplete beta function by Lentz's rule. */
function fraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / notZero(1 - ((a + b) * x) / (a + 1));
  let product = d;
  for (let m = 1; m <= STEPS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / notZero(1 + even * d);
    c = notZero(1 + even / c);
    product *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / notZero(1 + odd * d);
    c = notZero(1 + odd / c);
    product *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return product;
}

/**
 * Regularised incomplete beta function I_x(a, b): the share below x of a beta distribution. Dimensionless, 0 to 1.
 *
 * @param x from 0 to 1; a and b above 0
 * @source Abramowitz and Stegun, Handbook of Mathematical Functions, 26.5.8 (memory)
 * @example
 * incompleteBeta(0.5, 3, 3).toFixed(12) // => "0.500000000000"
 */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x);
  return (Math.exp(front) * fraction(x, a, b)) / a;
}
