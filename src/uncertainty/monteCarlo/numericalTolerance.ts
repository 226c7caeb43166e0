/**
 * Numerical tolerance of a standard uncertainty told with so many significant digits: written as `c x 10^l` with c a
 * whole number of that many digits, it is half of `10^l`.
 *
 * @param u above 0
 * @param digits 1 or 2
 * @source JCGM 101:2008 clause 7.9.2 (memory)
 * @example
 * numericalTolerance(0.00035, 2) // => 0.000005
 */
export function numericalTolerance(u: number, digits: number): number {
  const exponent = Math.floor(Math.log10(u)) - (digits - 1);
  const rolledOver = Number((u / 10 ** exponent).toFixed(0)) >= 10 ** digits;
  return Number(`5e${exponent + (rolledOver ? 1 : 0) - 1}`);
}
