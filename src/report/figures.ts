import { roundHalfAway, significant } from "../grading/rounding.ts";
import type { Determination } from "../record/determination.ts";
import { apertureText as nominalInFull } from "../series/apertureText.ts";
import { unitBeside } from "../series/sizesTogether.ts";
import { SIGNS } from "../terminal/signs.ts";
import { figure } from "../words/figures.ts";
import { say } from "../words/say.ts";

/** The nominal aperture of a sieve in full, in the words and with the decimal sign of the screens. */
export const apertureText = (apertureUm: number): string =>
  apertureUm === 0 ? say`pan` : figure(nominalInFull(apertureUm));

/** What stands where there is no number; the reason is told elsewhere. */
export const NO_FIGURE = SIGNS.none;

/**
 * A size read from the curve: um below 1 mm, mm from 1 mm, three significant digits (and `more`, if asked for).
 *
 * @example sizeText(742.4) // => "742 um"
 * @example sizeText(1190) // => "1.19 mm"
 */
export function sizeText(sizeUm: number, more = 0): string {
  const um = significant(sizeUm, 3 + more);
  return figure(Number(um) < 1000 ? `${um} um` : `${significant(sizeUm / 1000, 3 + more)} mm`);
}

/**
 * Sizes of one row in one unit, that of the first of them: three significant digits (and `more`).
 *
 * @returns the texts in their order, a dash for what is not known
 * @example sizesText([1019, 987, 1198], 1) // => ["1.019 mm", "0.987 mm", "1.198 mm"]
 */
export function sizesText(sizesUm: readonly (number | null)[], more = 0): readonly string[] {
  const first = sizesUm.find((um) => um !== null) ?? 0;
  const { um: per, word } = unitBeside(first);
  const decimals = Math.max(0, 2 + more - Math.floor(Math.log10(Math.max(first, 1e-6) / per)));
  return sizesUm.map((um) => (um === null ? NO_FIGURE : `${figure(roundHalfAway(um / per, decimals))} ${word}`));
}

/** Decimals that a balance shows: 0.01 g gives 2, 1 g and coarser give 0; at most 6. */
export const decimalsOf = (readabilityG: number): number =>
  Math.min(6, Math.max(0, Math.ceil(-Math.log10(readabilityG) - 1e-9)));

/** A mass in g without its unit, with the decimals of the balance. */
export const massText = (massG: number | null, decimals = 2): string =>
  massG === null ? NO_FIGURE : figure(roundHalfAway(massG, decimals));

/** A percentage without its sign; one decimal unless asked for more. */
export const pctText = (pct: number | null, decimals = 1): string =>
  pct === null ? NO_FIGURE : figure(roundHalfAway(pct, decimals));

/**
 * A characteristic value with its unit: a size as `sizeText`, phi with two decimals, a percentage with one,
 * everything else with three significant digits (and `more`, if asked for); "1" is no unit. Without a value: a dash.
 *
 * @example valueText({ determinable: true, value: 2.8149, unit: "1" }) // => "2.81"
 */
export function valueText(found: Determination | undefined, more = 0): string {
  if (!found?.determinable) return NO_FIGURE;
  const { value, unit } = found;
  if (unit === "um") return sizeText(value, more);
  if (unit === "phi") return figure(`${roundHalfAway(value, 2 + more)} phi`);
  if (unit === "%") return figure(`${roundHalfAway(value, 1 + more)} %`);
  return figure(unit === "1" ? significant(value, 3 + more) : `${significant(value, 3 + more)} ${unit}`);
}
