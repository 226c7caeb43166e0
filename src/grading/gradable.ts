import { apertureText } from "../series/apertureText.ts";
import type { Fraction, GradingMasses } from "./grading.ts";
import { sumG } from "./netMass.ts";

/** Below this no balance weighs, and a percentage of it would say nothing. */
const NOTHING_G = 1e-9;

const rowName = (apertureUm: number): string =>
  apertureUm === 0 ? "the pan" : `the ${apertureText(apertureUm)} sieve`;

function rowsFault(fractions: readonly Fraction[]): string | null {
  const apertures = fractions.map((f) => f.apertureUm);
  const odd = apertures.find((a) => !(a >= 0 && Number.isFinite(a)));
  const twice = apertures.find((a, i) => apertures.indexOf(a) !== i);
  if (odd !== undefined) return `an aperture of ${odd} um cannot be: it must be above 0 (the pan is 0)`;
  if (!apertures.some((a) => a > 0)) return "no sieve was weighed: at least one sieve and the pan are needed";
  if (!apertures.includes(0)) return "the pan is missing: weigh it";
  return twice === undefined ? null : `${rowName(twice)} is there twice: keep one of the two`;
}

function netFault(fractions: readonly Fraction[]): string | null {
  const odd = fractions.find((f) => !Number.isFinite(f.netG));
  const negative = fractions.find((f) => f.netG < 0);
  if (odd) return `${rowName(odd.apertureUm)} has no net mass: weigh it`;
  if (negative) return `${rowName(negative.apertureUm)} holds ${negative.netG} g, less than nothing: weigh it again`;
  const nothing = sumG(fractions.map((f) => f.netG)) < NOTHING_G;
  return nothing ? "all masses are zero: there is nothing to grade" : null;
}

function washFault(chargeG: number | null, washedG: number): string | null {
  if (!(washedG >= NOTHING_G)) return "the dry mass after washing must be above 0 g";
  if (chargeG === null) return "a washed test needs the dry mass before washing";
  if (washedG > chargeG) return `the dry mass after washing (${washedG} g) is above that before it (${chargeG} g)`;
  return null;
}

function massesFault({ basis, chargeG, washedG }: GradingMasses): string | null {
  if (basis === "charge" && chargeG === null) return "percentages of the charge need the charge: weigh it";
  if (chargeG !== null && !(chargeG >= NOTHING_G && Number.isFinite(chargeG))) return "the charge must be above 0 g";
  return washedG === null ? null : washFault(chargeG, washedG);
}

/** Why these masses cannot be turned into percentages, with what to do; null if they can. */
export const gradingFault = (fractions: readonly Fraction[], masses: GradingMasses): string | null =>
  rowsFault(fractions) ?? netFault(fractions) ?? massesFault(masses);
