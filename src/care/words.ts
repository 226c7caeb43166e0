import { roundHalfAway } from "../grading/rounding.ts";
import { apertureText } from "../series/apertureText.ts";

/** A sieve in a sentence, with its serial where it is known. */
export function sieveName(sieve: { readonly apertureUm: number; readonly serial?: string | undefined }): string {
  const { apertureUm, serial } = sieve;
  if (apertureUm === 0) return serial === undefined ? "the pan" : `the pan (${serial})`;
  const aperture = apertureText(apertureUm);
  return serial === undefined ? `the ${aperture} sieve` : `the ${aperture} sieve (${serial})`;
}

/** A measured length of a few um to many mm: one decimal below 1 mm, whole um above. */
export const lengthWords = (um: number): string => `${roundHalfAway(um, um < 1000 ? 1 : 0)} um`;

/** A length that is compared with others of its kind, with its sign. */
export const offsetWords = (um: number): string => `${um < 0 ? "-" : "+"}${lengthWords(Math.abs(um))}`;

/** A small mass, as fine as the balance reads. */
export function grams(massG: number, readabilityG: number): string {
  const decimals = Math.max(0, Math.ceil(-Math.log10(readabilityG) - 1e-9));
  return `${roundHalfAway(massG, Math.min(6, decimals))} g`;
}

/** The day of a moment, as its own clock shows it. */
export const dayOf = (moment: string): string => moment.slice(0, 10);
