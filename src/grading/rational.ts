/** A quotient of two polynomials; coefficients from the constant term upwards. */
export interface Rational {
  readonly over: readonly number[];
  readonly under: readonly number[];
}

const polynomial = (coefficients: readonly number[], x: number): number =>
  coefficients.reduceRight((sum, c) => sum * x + c, 0);

/** The quotient at `x`, by Horner's rule. */
export const rationalAt = (r: Rational, x: number): number => polynomial(r.over, x) / polynomial(r.under, x);
