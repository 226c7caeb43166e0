import fc from "fast-check";
import type { Grading } from "../../../src/grading/grading.ts";
import type { FittedModel, ModelFit } from "../../../src/grading/models/fit.ts";
import type { ModelId } from "../../../src/grading/models/model.ts";
import { MODELS } from "../../../src/grading/models/table.ts";

/** A test whose sieves, coarsest first, pass these percentages; the pan takes the rest. */
export function gradingOf(aperturesUm: readonly number[], passingPct: readonly number[]): Grading {
  const passing = [100, ...passingPct, 0];
  const rows = [...aperturesUm, 0].map((apertureUm, i) => ({
    apertureUm,
    emptyG: null,
    fullG: null,
    netG: passing[i]! - passing[i + 1]!,
    retainedPct: passing[i]! - passing[i + 1]!,
    coarserPct: 100 - passing[i + 1]!,
    passingPct: passing[i + 1]!,
  }));
  return {
    basis: "recovered",
    chargeG: null,
    recoveredG: 100,
    washLossG: 0,
    totalG: 100,
    lossG: null,
    lossPct: null,
    rows,
  };
}

/** The passing % that a model with this line gives at each aperture. */
export const curveAt = (id: ModelId, sizeUm: number, slope: number, aperturesUm: readonly number[]) =>
  aperturesUm.map((apertureUm) => MODELS[id].passingPctAt(slope * Math.log(apertureUm / sizeUm)));

export const TWELVE_SIEVES = [4750, 3350, 2360, 1700, 1180, 850, 600, 425, 300, 212, 150, 75] as const;

/** Passing % of the sieves that hold these masses, coarsest first, the last mass being the pan's. */
export function passingOf(masses: readonly number[]): number[] {
  const total = masses.reduce((sum, mass) => sum + mass, 0);
  let coarser = 0;
  return masses.slice(0, -1).map((mass) => {
    coarser += mass;
    return Math.max(0, 100 - (100 * coarser) / total);
  });
}

/** Passing % of twelve sieves from random masses: anything a balance could see, also gap-graded and one-sided. */
export const anyPassing = fc
  .array(fc.oneof(fc.double({ min: 0, max: 100, noNaN: true }), fc.constant(0)), { minLength: 13, maxLength: 13 })
  .filter((masses) => masses.some((mass) => mass > 0.001))
  .map(passingOf);

export function determinedFit(fit: ModelFit): FittedModel {
  if (!fit.determinable) throw new Error(`no fit: ${fit.reason}`);
  return fit;
}

/** Size and second parameter of a fit, in this order, whatever they are called. */
export const parametersOf = (fit: FittedModel): readonly [number, number] => {
  const [size, shape] = MODELS[fit.model].parameters;
  const named = fit as unknown as Record<string, number>;
  return [named[size.key]!, named[shape.key]!];
};

export const errorsOf = (fit: FittedModel): readonly [number, number] => {
  const [size, shape] = MODELS[fit.model].parameters;
  const named = fit.standardErrors as unknown as Record<string, number>;
  return [named[size.key]!, named[shape.key]!];
};
