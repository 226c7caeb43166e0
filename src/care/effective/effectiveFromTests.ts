import { sizeWords } from "../../grading/words.ts";
import { type Determination, determined, undetermined } from "../../record/determination.ts";
import { describeAperture } from "../../series/describe.ts";
import type { Random } from "../random.ts";
import { sieveName } from "../words.ts";
import { type Found, type Looked, searched } from "./suspects.ts";
import { type EffectiveChoice, FEWEST_TESTS, latestOf, pointsOf, type StackTest } from "./tests.ts";

/** What routine tests say of one sieve. */
export interface EffectiveAperture {
  readonly apertureUm: number;
  readonly serial?: string | undefined;
  /** The size that this sieve sieves like, if its neighbours are right; unit "um". */
  readonly effectiveUm: Determination;
  readonly fromUm: number | null;
  readonly toUm: number | null;
  /** What its mean aperture may be by Y; null where no limit is known. */
  readonly allowedUm: { readonly fromUm: number; readonly toUm: number } | null;
  readonly againstY: "within" | "reaches beyond" | "beyond" | "not judged";
  readonly suspect: boolean;
  readonly tests: number;
  readonly advice: string | null;
}

export interface EffectiveApertures {
  /** Coarsest first. */
  readonly sieves: readonly EffectiveAperture[];
  readonly tests: number;
  /** How it was found and what it cannot tell, in words. */
  readonly notes: readonly string[];
}

function judged(fromUm: number, toUm: number, allowed: EffectiveAperture["allowedUm"]): EffectiveAperture["againstY"] {
  if (allowed === null) return "not judged";
  if (fromUm >= allowed.fromUm && toUm <= allowed.toUm) return "within";
  return toUm < allowed.fromUm || fromUm > allowed.toUm ? "beyond" : "reaches beyond";
}

function told({ sieve, estimate }: Found, suspect: boolean): EffectiveAperture {
  const { apertureUm, serial, toleranceUm, knownUm } = sieve;
  const allowedUm = toleranceUm === null ? null : { fromUm: apertureUm - toleranceUm, toUm: apertureUm + toleranceUm };
  const base = { apertureUm, serial, allowedUm };
  if (typeof estimate === "string") {
    const none = { fromUm: null, toUm: null, againstY: "not judged", suspect: false, tests: 0, advice: null } as const;
    return { ...base, ...none, effectiveUm: undetermined(estimate) };
  }
  const at = (ln: number): number => knownUm * Math.exp(ln);
  const [fromUm, toUm] = [at(estimate.from), at(estimate.to)];
  const one = {
    ...base,
    fromUm,
    toUm,
    effectiveUm: determined(at(estimate.departure), "um", ["its neighbours are right"]),
    againstY: judged(fromUm, toUm, allowedUm),
    suspect,
    tests: estimate.tests,
  };
  return { ...one, advice: suspect ? adviceOn(one, at(estimate.departure)) : null };
}

function adviceOn(one: Omit<EffectiveAperture, "advice">, effectiveUm: number): string {
  const range = `${sizeWords(one.fromUm ?? 0)} to ${sizeWords(one.toUm ?? 0)}`;
  const { allowedUm } = one;
  const limits = allowedUm && `; Y allows ${sizeWords(allowedUm.fromUm)} to ${sizeWords(allowedUm.toUm)}`;
  const sieves = `${sieveName(one)} sieves like ${sizeWords(effectiveUm)} (${range}${limits ?? ""})`;
  return `${sieves}, or its neighbours are off the other way: look it over and measure it; no result is changed`;
}

/**
 * Effective aperture of each sieve of a stack from its routine tests of one product: a sieve whose tests depart in
 * the same direction from the curve through its neighbours is suspect. A suspect sieve is left out of the other
 * sieves' curves (two at most). Confidence holds over all sieves together (Bonferroni). It advises, and never
 * changes a result.
 *
 * What it cannot see: the coarsest and finest sieve that tell anything; a drift of all sieves alike; a material whose
 * own curve has a bend at a sieve, unless `before` gives tests of it on the same stack when that was known to be right.
 *
 * @param tests valid tests of one product on one stack, in any order
 * @param random seeded by the caller
 * @source own, no source; detection, false alarms and bias by simulation in docs/care-simulations.md
 */
export function effectiveFromTests(
  tests: readonly StackTest[],
  choice: EffectiveChoice,
  random: Random,
): EffectiveApertures {
  const { confidence = 0.95, resamples = 200, knownUm = new Map<number, number>() } = choice;
  const latest = latestOf(tests, choice.tests ?? 40);
  const series = {
    now: latest.map((test) => pointsOf(test, knownUm)),
    before: choice.before
      ? latestOf(choice.before, Number.MAX_SAFE_INTEGER).map((test) => pointsOf(test, knownUm))
      : null,
  };
  const { found, suspects } = searched(sievesOf(latest, knownUm), series, { confidence, resamples, random });
  return {
    sieves: found.map((one) => told(one, suspects.has(one.sieve.knownUm))),
    tests: latest.length,
    notes: notesOn(latest.length, confidence, choice),
  };
}

function sievesOf(tests: readonly StackTest[], knownUm: ReadonlyMap<number, number>): Looked[] {
  const rows = tests.at(-1)?.sieves ?? [];
  return rows
    .toSorted((a, b) => b.apertureUm - a.apertureUm)
    .map(({ apertureUm, serial }) => ({
      apertureUm,
      serial,
      knownUm: knownUm.get(apertureUm) ?? apertureUm,
      toleranceUm: describeAperture(apertureUm).meanToleranceUm,
    }));
}

function notesOn(tests: number, confidence: number, choice: EffectiveChoice): string[] {
  const sure = `ranges hold for all sieves together at ${Math.round(100 * confidence)} %`;
  const known = choice.knownUm ? "certified mean apertures where known" : "nominal apertures";
  const from = choice.before
    ? "the change since the stack was known to be right"
    : "against the neighbours alone, which cannot tell a wrong sieve from a bend in the material's own curve";
  const few = tests < FEWEST_TESTS ? [`${tests} tests say nothing: ${FEWEST_TESTS} are needed`] : [];
  return [sure, known, from, ...few];
}
