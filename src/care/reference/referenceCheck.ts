import { roundHalfAway } from "../../grading/rounding.ts";
import { sizeWords } from "../../grading/words.ts";
import type { ReferenceCheck } from "../../record/care.ts";
import { type Determination, determined, undetermined } from "../../record/determination.ts";
import { describeAperture } from "../../series/describe.ts";
import { isBeyondY } from "../inspection/limits.ts";
import { sieveName } from "../words.ts";
import { type CertifiedCurve, certifiedAt, certifiedCurve, certifiedSizeUm } from "./certified.ts";

/** What a certified material says of one sieve. */
export interface SieveChecked {
  readonly apertureUm: number;
  readonly serial?: string | undefined;
  readonly foundPct: number;
  readonly certifiedPct: number | null;
  readonly en: Determination;
  readonly z: Determination;
  readonly result: "agrees" | "questionable" | "disagrees" | "not judged";
  /** The size at which the certified curve passes what this sieve passed; unit "um". */
  readonly effectiveUm: Determination;
  /** Its range from the uncertainty of both; null at an end that the certificate does not reach. */
  readonly fromUm: number | null;
  readonly toUm: number | null;
  readonly text: string;
}

export interface ReferenceChoice {
  /** Expanded (k = 2) uncertainty of what was found, in % passing, where the check does not give one. */
  readonly expandedPct?: number;
  /** Standard deviation for the z score at a passing %; by default that of the European cross-test. */
  readonly spreadPct?: (passingPct: number) => number;
}

/**
 * Standard deviation between laboratories of what a sieve passes, in % passing: `0.05 sqrt(X (100 - X))`, an upper
 * bound of what 17 laboratories found on three sands.
 *
 * @source European cross-test of sieving (BRE), S_R < 0.05 sqrt(X(100 - X)) (seen)
 * @example crossTestSpreadPct(50) // => 2.5
 */
export const crossTestSpreadPct = (passingPct: number): number => 0.05 * Math.sqrt(passingPct * (100 - passingPct));

/**
 * En number of a result: `(found - certified) / sqrt(U_found^2 + U_certified^2)`, both expanded with k = 2.
 *
 * @returns unit "1"; not determinable where both uncertainties are 0
 * @source ISO 13528, ISO/IEC 17043 (memory)
 * @example enNumber(52, 50, 3, 4) // => { determinable: true, value: 0.4, unit: "1" }
 */
export function enNumber(foundPct: number, certifiedPct: number, foundU: number, certifiedU: number): Determination {
  const together = Math.hypot(foundU, certifiedU);
  if (!(together > 0)) return undetermined("an En number needs the uncertainty of what was found or certified");
  return determined((foundPct - certifiedPct) / together, "1");
}

/**
 * z score of a result: `(found - certified) / sigma`.
 *
 * @returns unit "1"; not determinable without a spread
 * @source ISO 13528 (memory)
 * @example zScore(55, 50, 2.5) // => { determinable: true, value: 2, unit: "1" }
 */
export function zScore(foundPct: number, certifiedPct: number, spreadPct: number): Determination {
  if (!(spreadPct > 0)) return undetermined("a z score needs a standard deviation above 0");
  return determined((foundPct - certifiedPct) / spreadPct, "1");
}

const MOST_EN = 1;
const QUESTIONABLE_Z = 2;
const ACTION_Z = 3;

/** |En| up to 1 agrees. By z: up to 2 agrees, 3 and more disagrees. The worse of the two is told. */
function resultOf(en: Determination, z: Determination): SieveChecked["result"] {
  const size = (d: Determination): number => (d.determinable ? Math.abs(d.value) : 0);
  if (!en.determinable && !z.determinable) return "not judged";
  if (size(en) > MOST_EN || size(z) >= ACTION_Z) return "disagrees";
  return size(z) > QUESTIONABLE_Z ? "questionable" : "agrees";
}

type Found = ReferenceCheck["found"][number];

/** The size by the curve, and its range: what is certified and what was found may both be off. */
function effectiveOf(curve: CertifiedCurve, passingPct: number, expandedPct: number) {
  const sizeUm = certifiedSizeUm(curve, passingPct);
  const effectiveUm =
    sizeUm === null ? undetermined("what it passed lies outside the certified curve") : determined(sizeUm, "um");
  const at = (pct: number) => (sizeUm === null ? null : certifiedSizeUm(curve, pct));
  return { effectiveUm, fromUm: at(passingPct - expandedPct), toUm: at(passingPct + expandedPct) };
}

const scoreOf = (en: Determination): string | null => (en.determinable ? roundHalfAway(en.value, 2) : null);

/** The result of a check with its En number, as one phrase. */
export function resultWords(result: SieveChecked["result"], en: Determination): string {
  const score = scoreOf(en);
  if (score === null) return result;
  return {
    agrees: `agrees (En ${score})`,
    questionable: `questionable (En ${score})`,
    disagrees: `disagrees (En ${score})`,
    "not judged": `not judged (En ${score})`,
  }[result];
}

function sieveResultWords(name: string, result: SieveChecked["result"], en: Determination): string {
  const score = scoreOf(en);
  if (result === "not judged") return `${name} cannot be judged`;
  if (score === null) return `${name} ${result}`;
  return {
    agrees: `${name} agrees (En ${score})`,
    questionable: `${name} questionable (En ${score})`,
    disagrees: `${name} disagrees (En ${score})`,
  }[result];
}

function textOf(found: Found, result: SieveChecked["result"], en: Determination, effectiveUm: Determination): string {
  const y = describeAperture(found.apertureUm).meanToleranceUm;
  const beyond = effectiveUm.determinable && isBeyondY(effectiveUm.value, found.apertureUm, y);
  return [
    sieveResultWords(sieveName(found), result, en),
    ...(effectiveUm.determinable ? [`sieves like ${sizeWords(effectiveUm.value)}`] : []),
    ...(beyond ? ["beyond Y"] : []),
  ].join(", ");
}

function checkOne(curve: CertifiedCurve, found: Found, choice: ReferenceChoice): SieveChecked {
  const { apertureUm, serial, passingPct } = found;
  const certified = certifiedAt(curve, apertureUm);
  const foundU = found.expandedPct ?? choice.expandedPct ?? 0;
  const none = undetermined("the certificate says nothing at this aperture");
  const en = certified ? enNumber(passingPct, certified.passingPct, foundU, certified.expandedPct) : none;
  const spread = certified ? (choice.spreadPct ?? crossTestSpreadPct)(certified.passingPct) : 0;
  const z = certified ? zScore(passingPct, certified.passingPct, spread) : none;
  const effective = effectiveOf(curve, passingPct, Math.hypot(foundU, certified?.expandedPct ?? 0));
  const result = resultOf(en, z);
  const text = textOf(found, result, en, effective.effectiveUm);
  return {
    apertureUm,
    serial,
    foundPct: passingPct,
    certifiedPct: certified?.passingPct ?? null,
    en,
    z,
    result,
    ...effective,
    text,
  };
}

/**
 * Judges each sieve by a certified material that was run like a test: En number and z score of what it passed, and the
 * effective aperture, the size at which the certified curve passes as much. Each sieve is judged for itself; of 20
 * right ones, about one is questionable by chance.
 *
 * @returns coarsest first
 * @source ISO 13528 (memory); effective aperture as in the practice of reference beads
 */
export function referenceCheck(check: ReferenceCheck, choice: ReferenceChoice = {}): SieveChecked[] {
  const curve = certifiedCurve(check.material);
  return check.found.toSorted((a, b) => b.apertureUm - a.apertureUm).map((found) => checkOne(curve, found, choice));
}
