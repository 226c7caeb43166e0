/** Limits of a test sieve's apertures around the nominal size, in um. */
export interface ApertureTolerance {
  /** Y: the mean aperture lies within nominal plus or minus this. */
  readonly meanUm: number;
  /** X: no aperture exceeds nominal plus this. */
  readonly maxUm: number;
  /** Z: at most 6 % of the apertures lie between nominal + Z and nominal + X (older ISO 3310-1 scheme). */
  readonly intermediateUm: number;
}

export const FINEST_STANDARD_UM = 20;
export const COARSEST_STANDARD_UM = 125_000;

/**
 * Aperture limits by formula, w and all results in um:
 *
 *     X = (2/3) w^0.75 + 4 w^0.25      Y = w^0.98 / 27 + 1.6      Z = (X + Y) / 2
 *
 * The formulas are recalled (ISO 3310-1, ASTM E11); they give every value of the European Pharmacopoeia's table
 * that was seen, within its rounding to 10 um. Result status `computed`.
 *
 * @returns undefined outside 20 um to 125 mm, the scope of both standards
 * @source ISO 3310-1; ASTM E11 (formulas recalled)
 * @example Math.round(toleranceByFormula(2000)?.meanUm ?? 0) // => 65
 */
export function toleranceByFormula(apertureUm: number): ApertureTolerance | undefined {
  if (!(apertureUm >= FINEST_STANDARD_UM && apertureUm <= COARSEST_STANDARD_UM)) return undefined;
  const maxUm = (2 / 3) * apertureUm ** 0.75 + 4 * apertureUm ** 0.25;
  const meanUm = apertureUm ** 0.98 / 27 + 1.6;
  return { meanUm, maxUm, intermediateUm: (maxUm + meanUm) / 2 };
}
