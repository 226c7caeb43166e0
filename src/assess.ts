import { apertureNotices } from "./assess/apertureNotices.ts";
import type { Assessment, Circumstances, Weighed } from "./assess/assessment.ts";
import { changedNotices } from "./assess/changedNotices.ts";
import { type DrawnOver, drawnOver, meansOf, otherApertures, overMeans, withMeans } from "./assess/drawnOver.ts";
import { gainNotices } from "./assess/gainNotices.ts";
import { type HowSure, onDemand, suretiesOf } from "./assess/howSure.ts";
import { levelled } from "./assess/levelled.ts";
import { openEndNotices } from "./assess/openEndNotices.ts";
import { takenOverNotices } from "./assess/takenOverNotices.ts";
import { accepted, type Outcome } from "./entry/outcome.ts";
import { findFor } from "./envelope/find.ts";
import { judgeLimit, type LimitSure, productVerdict } from "./envelope/judge.ts";
import { type JudgedLimit, limitsOf } from "./envelope/limit.ts";
import { basisOf, choicesOf } from "./grading/choices.ts";
import { grade } from "./grading/grade.ts";
import type { Grading, GradingChoices } from "./grading/grading.ts";
import { fitModels } from "./grading/models/fitModels.ts";
import { percentiles } from "./grading/percentile.ts";
import { characteristicValues } from "./grading/values/table.ts";
import { resolveRules } from "./procedure/rules/resolve.ts";
import { ruleSetOf } from "./procedure/rules/ruleSets.ts";
import { massesOnly } from "./procedure/verdict/facts.ts";
import { judgeProcedure, type ProcedureVerdict } from "./procedure/verdict/judgeProcedure.ts";
import type { Decision } from "./record/decision.ts";
import type { Determination } from "./record/determination.ts";
import type { Product } from "./record/product.ts";
import type { ValueId } from "./record/valueIds.ts";
import { conditionsOf } from "./uncertainty/conditionsOf.ts";

export type { Assessment, Circumstances, Conduct, Notice, Weighed } from "./assess/assessment.ts";
export type { HowSure } from "./assess/howSure.ts";
export type { JudgedLimit } from "./envelope/limit.ts";
export type { Severity } from "./record/procedure.ts";

const SIMPLE: Decision = { rule: "simple", compare: "absolute" };

/** Is the test itself valid? Judged by the rules that the product names, and by nothing else. */
function conducted(
  grading: Grading,
  weighed: Weighed,
  product: Product | null,
  circumstances: Circumstances,
): ProcedureVerdict {
  const facts = {
    ...massesOnly(grading, weighed.washedG),
    panAssumed: weighed.panAssumed ?? false,
    readabilityG: circumstances.balanceUnknown ? null : circumstances.readabilityG,
    ...weighed.conduct,
  };
  return judgeProcedure(facts, resolveRules(product?.method, product?.method?.procedure));
}

/** Which revision decided, and how values were compared with its limits. */
function judgedAgainst({ code, revision, decision = SIMPLE }: Product): Assessment["judgedAgainst"] {
  return { code, revision, rule: decision.rule, compare: decision.compare ?? "absolute" };
}

function ruleSetWords(product: Product | null) {
  const id = product?.method?.procedure?.ruleSet;
  if (id === undefined) return null;
  const { title, edition } = ruleSetOf(id);
  return { id, title: edition === "" ? title : `${title}, ${edition}` };
}

interface Judged {
  readonly limits: readonly JudgedLimit[];
  readonly choices: GradingChoices;
  readonly values: Readonly<Record<ValueId, Determination>>;
  readonly howSure: () => HowSure;
}

const BEFORE_BUDGETS: LimitSure = {
  determinable: false,
  reason: "the program that signed this test computed none, and a recorded verdict is not made anew",
};

/** What is known for the uncertainty; of apertures, what the curve is drawn over. */
const knownIn = (product: Product | null, { known = {}, means = [] }: Circumstances) =>
  withMeans(known, otherApertures(product) === null ? null : means);

function judged(grading: Grading, weighed: Weighed, product: Product | null, circumstances: Circumstances): Judged {
  const choices = choicesOf(product, circumstances);
  const values = characteristicValues(grading, choices);
  const findings = { grading, choices, values, interpolateMissing: product?.method?.interpolateMissing ?? false };
  const decision = product?.decision ?? SIMPLE;
  const stated = product ? limitsOf(product) : [];
  const sureties = suretiesOf(
    onDemand(() => ({
      graded: {
        grading,
        choices,
        panAssumed: weighed.panAssumed ?? false,
        interpolateMissing: findings.interpolateMissing,
      },
      conditions: conditionsOf(product, knownIn(product, circumstances)),
      draws: circumstances.draws ?? null,
      limits: stated,
      decision,
    })),
  );
  const sureOf = circumstances.withoutBudget ? () => BEFORE_BUDGETS : sureties.sureOf;
  const limits = stated.map((limit) => judgeLimit(limit, findFor(limit.on, findings), decision, sureOf));
  return { limits, choices, values, howSure: onDemand(() => sureties.all(limits)) };
}

/**
 * THE function: what was weighed, judged against a product (or nothing), in given circumstances.
 *
 * Masses become fractions, fractions percentages of the basis, percentages a curve; from the curve come percentiles,
 * characteristic values and the verdict on each limit. The test itself is judged first: an invalid test proves
 * nothing about the product. Everything that shows a result shows what this function returns.
 *
 * @returns the assessment, or why the weighings can't be assessed at all, in the operator's words
 */
export function assess(weighed: Weighed, product: Product | null, circumstances: Circumstances): Outcome<Assessment> {
  const level = levelled(weighed.fractions, circumstances.readabilityG);
  if (!level.ok) return level;
  const basis = basisOf(product, circumstances);
  const choice = otherApertures(product);
  const means = circumstances.means ?? meansOf(level.value.fractions, []);
  const fractions = choice === null ? level.value.fractions : overMeans(level.value.fractions, means);
  const graded = grade(fractions, { basis, chargeG: weighed.chargeG, washedG: weighed.washedG });
  if (!graded.ok) return graded;
  const grading = graded.value;
  const found = judged(grading, weighed, product, circumstances);
  const { limits, choices, values, howSure } = found;
  const procedure = conducted(grading, weighed, product, circumstances);
  const models = onDemand(() => fitModels(grading, choices));
  const drawn: DrawnOver | null = choice === null ? null : drawnOver(choice, means, grading, choices.interpolation);
  return accepted({
    basis,
    interpolation: choices.interpolation,
    ...(drawn === null ? {} : { apertures: drawn }),
    chargeG: grading.chargeG,
    washedG: weighed.washedG,
    recoveredG: grading.recoveredG,
    lossG: weighed.panAssumed ? null : grading.lossG,
    lossPct: weighed.panAssumed ? null : grading.lossPct,
    fractions: grading.rows,
    percentilesUm: percentiles(grading, choices.interpolation),
    values,
    get models() {
      return models();
    },
    get howSure() {
      return howSure();
    },
    verdict: { test: procedure.verdict, product: productVerdict(limits, procedure.verdict), limits },
    judgedAgainst: product ? judgedAgainst(product) : null,
    procedure: {
      ruleSet: ruleSetWords(product),
      checks: procedure.checks.map(({ check, state, required, text }) => ({ check, state, required, text })),
      rules: procedure.rules,
    },
    notices: [
      ...level.value.notices,
      ...gainNotices(grading),
      ...apertureNotices(drawn, grading.rows),
      ...changedNotices(weighed.changed),
      ...takenOverNotices(weighed.takenOver),
      ...procedure.notices,
      ...openEndNotices(grading, product, found),
    ],
  });
}
