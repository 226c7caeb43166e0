import { accepted, type Outcome } from "../entry/outcome.ts";
import { basisOf, choicesOf } from "../grading/choices.ts";
import { grade } from "../grading/grade.ts";
import type { Fraction } from "../grading/grading.ts";
import type { Product } from "../record/product.ts";
import type { Graded } from "../uncertainty/graded.ts";
import { otherApertures, overMeans } from "./drawnOver.ts";

/** Net masses with what was put on and left after washing, as an assessment has them. */
export interface AssessedMasses {
  readonly fractions: readonly Fraction[];
  readonly chargeG: number | null;
  readonly washedG: number | null;
  readonly panAssumed?: boolean;
}

/** Fractions as the product draws its curve: over nominal apertures whatever is known, or over means that may be unknown. */
function asDrawnBy(product: Product | null, fractions: readonly Fraction[]): readonly Fraction[] {
  if (otherApertures(product) === null) return fractions.map(({ meanUm: _mean, ...fraction }) => fraction);
  return fractions.every(({ meanUm }) => meanUm === undefined) ? overMeans(fractions, []) : fractions;
}

/**
 * These masses graded as the product has it, with its choices: what budgets, plans and replicates work with. Masses
 * without mean apertures have none that is known, where the product draws its curve over these; over nominal ones those
 * that were once drawn upon do not count.
 */
export function gradedAgain(masses: AssessedMasses, product: Product | null): Outcome<Graded> {
  const { fractions, chargeG, washedG, panAssumed = false } = masses;
  const graded = grade(asDrawnBy(product, fractions), {
    basis: basisOf(product, {}),
    chargeG,
    washedG,
  });
  if (!graded.ok) return graded;
  const interpolateMissing = product?.method?.interpolateMissing ?? false;
  return accepted({ grading: graded.value, choices: choicesOf(product, {}), panAssumed, interpolateMissing });
}
