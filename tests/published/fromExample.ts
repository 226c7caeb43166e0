import type { Grading, GradingChoices, GradingMasses } from "../../src/grading/grading.ts";
import { percentileUm } from "../../src/grading/percentile.ts";
import type { Interpolation } from "../../src/record/product.ts";
import type { ValueId } from "../../src/record/valueIds.ts";
import { fraction, gradedOf, numberOf } from "../grading/stack.ts";
import { number } from "../grading/values/valuesOf.ts";
import { halfDigit, type PublishedCheck } from "./record.ts";

/** A grading of an example's masses (or percentages) by sieve; what the pan holds is 0 unless given. */
export const stackOf = (
  aperturesUm: readonly number[],
  netsG: readonly number[],
  panG = 0,
  masses: Partial<GradingMasses> = {},
): Grading => gradedOf([...aperturesUm.map((um, i) => fraction(um, netsG[i] ?? 0)), fraction(0, panG)], masses);

/** A grading whose classes have exactly these middles, by narrow classes with empty sieves between them. */
export const classesAt = (
  middlesUm: readonly number[],
  shares: readonly number[],
  bounds: "sum" | "product",
): Grading => {
  const upper = 1.01;
  const lower = bounds === "sum" ? 0.99 : 1 / 1.01;
  const sieves = middlesUm.flatMap((um, i) => [fraction(um * upper, 0), fraction(um * lower, shares[i] ?? 0)]);
  return gradedOf([...sieves, fraction(0, 0)]);
};

export const mmToUm = (sizesMm: readonly number[]): number[] => sizesMm.map((mm) => Math.round(mm * 1e6) / 1e3);

export const dUm = (grading: Grading, pct: number, interpolation: Interpolation = "log-linear"): number =>
  numberOf(percentileUm(grading, pct, interpolation));

type Told = Pick<PublishedCheck, "source" | "status">;

/** Checks of characteristic values against figures recomputed to ten digits. */
export const recomputedValues = (
  told: Told,
  grading: Grading,
  figures: readonly (readonly [ValueId, string, number])[],
  choices: Partial<GradingChoices> = {},
): PublishedCheck[] =>
  figures.map(([id, value, published]) => ({
    ...told,
    value,
    published,
    ours: number(id, grading, choices),
    tolerance: halfDigit(published),
  }));
