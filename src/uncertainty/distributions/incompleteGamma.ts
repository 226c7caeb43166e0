import { logGamma } from "./logGamma.ts";

const STEPS = 10_000;

function series(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < STEPS; n++) {
    term *= x / (a + n);
    sum += term;
    if (term < sum * 1e-17) break;
  }
  return sum;
}

/** The continued fraction of the upper tail by Lentz's rule. */
function tailFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let product = d;
  for (let i = 1; i < STEPS; i++) {
    const an = -i * (i - a);
    b += 2;
    d = 1 / (an * d + b);
    c = b + an / c;
    product *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return product;
}

/**
 * Regularised lower incomplete gamma function P(a, x): the share below x of a gamma distribution of shape a.
 *
 * @param a above 0
 * @source Abramowitz and Stegun, Handbook of Mathematical Functions, 6.5.29 and 6.5.31 (memory)
 * @example
 * incompleteGamma(1, Math.LN2).toFixed(12) // => "0.500000000000"
 */
export function incompleteGamma(a: number, x: number): number {
  if (x <= 0) return 0;
  const front = Math.exp(a * Math.log(x) - x - logGamma(a));
  return x < a + 1 ? front * series(a, x) : 1 - front * tailFraction(a, x);
}
