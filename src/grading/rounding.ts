import Big from "big.js";

const withoutMinusZero = (text: string): string => (/^-0(\.0*)?$/.test(text) ? text.slice(1) : text);

/**
 * A number as text with a fixed number of decimals, rounded half away from zero on its decimal text, so that
 * what a person would round by hand comes out (2.675 gives 2.68). Never shows a minus before zero.
 *
 * @param value a finite number (anything else is a fault of the caller and throws)
 * @param decimals 0 or more
 * @source conventions CP-2
 * @example
 * roundHalfAway(2.675, 2) // => "2.68"
 * roundHalfAway(-0.004, 2) // => "0.00"
 */
export const roundHalfAway = (value: number, decimals: number): string =>
  withoutMinusZero(Big(value).toFixed(decimals, Big.roundHalfUp));

/**
 * The multiple of `step` nearest to `value`; halfway between two multiples the even one, as in ASTM E29. Exact in
 * decimals: 0.15 is halfway between 0.1 and 0.2 and goes to 0.2, 0.25 goes to 0.2 as well.
 *
 * @param step above 0, in the unit of `value`
 * @source ASTM E29, rounding-off method (memory)
 * @example
 * roundHalfEvenToStep(0.25, 0.1) // => 0.2
 * roundHalfEvenToStep(7.5, 5) // => 10
 */
export function roundHalfEvenToStep(value: number, step: number): number {
  if (!(step > 0)) throw new RangeError(`roundHalfEvenToStep needs a step above 0, not ${step}`);
  const wide = Big(value).abs();
  const beyond = wide.mod(step);
  const below = wide.minus(beyond);
  const side = beyond.times(2).cmp(step);
  const up = side > 0 || (side === 0 && !below.mod(Big(step).times(2)).eq(0));
  const rounded = (up ? below.plus(step) : below).toNumber();
  return value < 0 && rounded !== 0 ? -rounded : rounded;
}

/**
 * A number as plain text (no exponent) with so many significant digits, rounded half away from zero on its decimal
 * text; trailing zeros that are significant are kept. Zero is "0".
 *
 * @param digits 1 or more
 * @source conventions CP-2
 * @example
 * significant(1398, 3) // => "1400"
 * significant(1.4, 3) // => "1.40"
 * significant(0.09996, 3) // => "0.100"
 */
export function significant(value: number, digits: number): string {
  const rounded = Big(value).prec(digits, Big.roundHalfUp);
  if (rounded.eq(0)) return "0";
  return rounded.toFixed(Math.max(0, digits - 1 - rounded.e));
}
