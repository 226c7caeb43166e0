const G = 7;
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
] as const;

/**
 * Natural logarithm of the gamma function for x above 0, to about 14 digits.
 *
 * @source C. Lanczos, SIAM J. Numer. Anal. B 1 (1964) 86-96, with the nine coefficients for g = 7 in common use (memory)
 * @example
 * Math.round(1e9 * logGamma(5)) // => Math.round(1e9 * Math.log(24))
 */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`logGamma needs a number above 0, not ${x}`);
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const z = x - 1;
  const sum = LANCZOS.reduce((so, c, i) => (i === 0 ? c : so + c / (z + i)), 0);
  const t = z + G + 0.5;
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(sum);
}
