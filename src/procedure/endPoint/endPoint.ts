import type { EndPointReading } from "../../record/checks.ts";
import type { EndPointCriterion } from "../../record/procedure.ts";
import { isAbove, isBelow } from "../compare.ts";
import { sieveWords } from "../wording.ts";

/** What the check period let through one sieve. */
export interface SieveEndPoint {
  readonly apertureUm: number;
  readonly passedG: number;
  /** Of the charge or of the residue, as the criterion says; null without a charge. */
  readonly passedPct: number | null;
  readonly limitPct: number;
  /** Null: can't be told, see `reason`. */
  readonly reached: boolean | null;
  readonly reason?: string;
}

export interface EndPointResult {
  readonly state: "reached" | "not reached" | "not checked";
  readonly sieves: readonly SieveEndPoint[];
  /** Sieves that the criterion wants checked and that were not, in um, coarsest first. */
  readonly missingUm: readonly number[];
}

/**
 * Was sieving complete? Per sieve, with the mass that passed in the check period (as weighed, else before less after):
 *
 *     of charge:   passed % = 100 passed / charge         of residue:  passed % = 100 passed / mass before
 *
 * A sieve has reached its end point when passed % is at most the limit (strictly below it where the criterion says
 * `below`), or passed is at most `orG`. The test has, when every sieve that the criterion names has.
 *
 * @param readings what was weighed; none is the state "not checked"
 * @param loaded the sieves that hold something, with their net mass in g; only these need a check
 * @param chargeG mass that 100 % is for criteria of the charge, in g
 * @source ASTM C136 checklist 09/2020 and WAQTC T 27 (seen); ASTM C136 to 2006, EN 933-1, ISO 2591-1, USP 786 (recalled)
 */
export function endPointOf(
  criterion: EndPointCriterion,
  readings: readonly EndPointReading[],
  loaded: readonly { readonly apertureUm: number; readonly netG: number }[],
  chargeG: number | null,
): EndPointResult {
  const sieves = readings
    .toSorted((a, b) => b.apertureUm - a.apertureUm)
    .map((r) => sieveEndPoint(criterion, r, chargeG));
  const missingUm = wanted(criterion, readings, loaded).filter((um) => !readings.some((r) => r.apertureUm === um));
  const unknown = sieves.length === 0 || missingUm.length > 0 || sieves.some((sieve) => sieve.reached === null);
  const failed = sieves.some((sieve) => sieve.reached === false);
  return { state: failed ? "not reached" : unknown ? "not checked" : "reached", sieves, missingUm };
}

function sieveEndPoint(criterion: EndPointCriterion, reading: EndPointReading, chargeG: number | null): SieveEndPoint {
  const { apertureUm, beforeG } = reading;
  const passedG = passedInPeriodG(reading);
  const wholeG = criterion.of === "charge" ? chargeG : beforeG;
  const limitPct = limitFor(criterion, beforeG, chargeG);
  if (wholeG === null || !(wholeG > 0)) {
    const reason = `without a charge nothing can be said of ${sieveWords(apertureUm)}`;
    return { apertureUm, passedG, passedPct: null, limitPct, reached: null, reason };
  }
  const passedPct = (100 * passedG) / wholeG;
  const within = criterion.below ? isBelow(passedPct, limitPct) : !isAbove(passedPct, limitPct);
  const little = criterion.orG !== undefined && !isAbove(passedG, criterion.orG);
  return { apertureUm, passedG, passedPct, limitPct, reached: within || little };
}

/** A sieve that seems to have gained let nothing through; of two weighings of the same grains the larger counts. */
function passedInPeriodG({ beforeG, afterG, passedG }: EndPointReading): number {
  return Math.max(0, passedG ?? 0, afterG === undefined ? 0 : beforeG - afterG);
}

function limitFor(criterion: EndPointCriterion, beforeG: number, chargeG: number | null): number {
  const { small, limitPct } = criterion;
  const isSmall = small !== undefined && chargeG !== null && isBelow(beforeG, (small.belowPct * chargeG) / 100);
  return isSmall ? small.limitPct : limitPct;
}

function wanted(
  criterion: EndPointCriterion,
  readings: readonly EndPointReading[],
  loaded: readonly { readonly apertureUm: number; readonly netG: number }[],
): number[] {
  const holding = loaded.filter((row) => row.apertureUm > 0 && row.netG > 0).map((row) => row.apertureUm);
  const coarsestFirst = holding.toSorted((a, b) => b - a);
  if (criterion.sieves === "every") return coarsestFirst;
  if (criterion.sieves === "finest loaded") return coarsestFirst.slice(-1);
  return readings.length > 0 ? [] : coarsestFirst.slice(0, 1);
}

/**
 * What passed each sieve when the whole stack ran on, not each sieve by itself: all that this sieve and the coarser
 * ones lost, since what falls from above may stay.
 *
 *     passed_i = sum over j <= i of (before_j - after_j), coarsest first
 *
 * @param masses the stack coarsest first, without the pan, in g
 * @source mass balance over the stack; no published source
 */
export function passedThroughStackG(
  masses: readonly { readonly beforeG: number; readonly afterG: number }[],
): number[] {
  let lostG = 0;
  return masses.map(({ beforeG, afterG }) => {
    lostG += beforeG - afterG;
    return Math.max(0, lostG);
  });
}
