const SHIFT = 7;
const TERMS = [
  676.5203681218851, -1259.1392167224028, 771.3234287776531, -176.6150291621406, 12.507343278686905,
  -0.13857109526572012, 9.984369578019572e-6, 1.5056327351493116e-7,
];
const HALF_LOG_TWO_PI = 0.9189385332046727;

/**
 * Natural logarithm of the gamma function, by the series of Lanczos with eight terms; within 1e-14 of its size.
 *
 * @param x above 0; anything else is a fault of the caller and throws
 * @source C. Lanczos, SIAM J. Numer. Anal. B 1 (1964) 86-96; coefficients as commonly printed for g = 7 (memory)
 * @example
 * logGamma(1) < 1e-14 // => true
 */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`logGamma needs a number above 0, not ${x}`);
  if (x < 0.5) return logGamma(x + 1) - Math.log(x);
  const series = TERMS.reduce((sum, term, i) => sum + term / (x + i), 0.9999999999998099);
  const t = x + SHIFT - 0.5;
  return HALF_LOG_TWO_PI + (x - 0.5) * Math.log(t) - t + Math.log(series);
}
