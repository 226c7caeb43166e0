import type { Assessment } from "../assess.ts";
import type { Product } from "../record/product.ts";

const INTERPOLATIONS: Readonly<Record<Assessment["interpolation"], string>> = {
  "log-linear": "in a straight line over the logarithm of the aperture (log-linear)",
  linear: "in a straight line over the aperture (linear)",
  "log-probability": "in a straight line on log-probability paper",
  monotone: "by a smooth curve that never falls (monotone), over the logarithm of the aperture",
};

/** What the numbers rest on, one sentence each: a default is never silent. */
export function conventions(assessment: Assessment, product: Product | null): string[] {
  const basis =
    assessment.basis === "recovered"
      ? "Percentages are of the recovered total, by mass."
      : "Percentages are of the charge as weighed, by mass; what was lost counts as passing.";
  const between = `Between sieves passing % is read ${INTERPOLATIONS[assessment.interpolation]}; nothing is read beyond them.`;
  const judged = assessment.verdict.limits.length > 0 ? [decision(product)] : [];
  return [basis, between, ...judged, "A pass here is no certificate of any law or licence."];
}

function decision(product: Product | null): string {
  const { rule, compare = "absolute" } = product?.decision ?? { rule: "simple" };
  const compared = compare === "absolute" ? "as computed, unrounded" : `rounded to ${compare.roundedTo}, half to even`;
  const accepted = rule === "simple" ? "simple acceptance" : "guarded by their uncertainty";
  return `Limits are inclusive; values are compared ${compared}; ${accepted}.`;
}
