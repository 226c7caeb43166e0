import type { Assessment } from "../assess.ts";
import { limitsOf } from "../envelope/limit.ts";
import type { Product } from "../record/product.ts";
import type { DecisionRule } from "../uncertainty/decision/decide.ts";
import { ruleOf } from "../uncertainty/decision/ruleOf.ts";
import { CHOICE_WORDS } from "./apertureWords.ts";
import { guardText, isByDraws } from "./sureFigures.ts";

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
  const over = assessment.apertures === undefined ? [] : [overWords(assessment.apertures.choice)];
  const sure =
    "± is the expanded uncertainty U = 2 u (k = 2), about 95 %; where it would reach beyond what can be, the ends are given.";
  const drawn = assessment.howSure.budget.passing.some(isByDraws)
    ? ["Where the draws are used, the two ends are those of the interval that holds 95.45 % of the draws."]
    : [];
  const judged = assessment.verdict.limits.length > 0 ? [decision(product)] : [];
  return [basis, between, ...over, sure, ...drawn, ...judged, "A pass here is no certificate of any law or licence."];
}

const overWords = (choice: keyof typeof CHOICE_WORDS): string =>
  `The curve is drawn over ${CHOICE_WORDS[choice]}; limits and series sieves are read from it at their nominal apertures, ` +
  "retained % as the difference of two readings. Shares beside a sieve are what that sieve held and passed. " +
  "± counts how the curve may bend there: by how much another interpolation reads otherwise, the more the further a mean is from nominal.";

/** The product's rule in words, and whether single limits have their own. */
function decision(product: Product | null): string {
  const { compare = "absolute" } = product?.decision ?? {};
  const compared = compare === "absolute" ? "as computed, unrounded" : `rounded to ${compare.roundedTo}, half to even`;
  const own = (product ? limitsOf(product) : []).some((limit) => limit.decision !== undefined);
  const others = own ? "; some limits have a rule of their own" : "";
  return `Limits are inclusive; values are compared ${compared}; ${ruleWords(ruleOf(product?.decision, undefined))}${others}.`;
}

/** "simple acceptance", "guarded acceptance with a guard band of 1.645 u (U = 2 u)". */
export function ruleWords(rule: DecisionRule): string {
  if (rule.kind === "simple") return "simple acceptance";
  const side =
    rule.side === undefined ? "" : `, at the ${rule.side === "min" ? "lower" : "upper"} end of a limit with two`;
  const guarded = rule.kind === "guarded both" ? "guarded acceptance and rejection" : rule.kind;
  return `${guarded} with a guard band of ${guardText(rule)} (U = 2 u)${side}`;
}
