import { decidedOn, type LimitSure } from "../envelope/judge.ts";
import { type JudgedLimit, type Limit, limitName } from "../envelope/limit.ts";
import { turningEnds } from "../envelope/turningEnds.ts";
import { PERCENTILES } from "../grading/percentile.ts";
import type { Decision } from "../record/decision.ts";
import { type Budget, budgetOf, EVERYTHING, type Sureness } from "../uncertainty/budget.ts";
import type { Conditions } from "../uncertainty/conditions.ts";
import { DEFAULT_GUARD, type DecisionRule, type Guard } from "../uncertainty/decision/decide.ts";
import { type FewGrains, fewGrains } from "../uncertainty/decision/fewGrains.ts";
import { realEnds } from "../uncertainty/decision/realEnds.ts";
import { ruleOf } from "../uncertainty/decision/ruleOf.ts";
import { type DecidedLimit, type WhatDecides, whatDecides } from "../uncertainty/decision/whatDecides.ts";
import type { Graded } from "../uncertainty/graded.ts";
import { boundsOf, type Measurand, measurandName } from "../uncertainty/measurand.ts";
import type { Random } from "../uncertainty/monteCarlo/chance.ts";
import type { Comparison } from "../uncertainty/monteCarlo/compareWays.ts";
import { withDraws } from "../uncertainty/monteCarlo/withDraws.ts";

/** One limit under its rule, with how sure its number is. */
export interface SureLimit extends DecidedLimit {
  readonly judged: JudgedLimit;
  readonly rule: DecisionRule;
}

/** How sure a test's numbers are, and what that makes of its limits. */
export interface HowSure {
  /** Every number with its budget by component, and what is not included, with the reason. */
  readonly budget: Budget;
  /** In the order of the verdict's limits, without those that nothing can miss and those of which nothing is known. */
  readonly limits: readonly SureLimit[];
  /** The limit nearest to its guard band, and what would help; null without limits. */
  readonly decides: WhatDecides | null;
  readonly fewGrains: readonly FewGrains[];
  /** How drawing compared with first-order propagation, where it was asked for. */
  readonly byDraws: ByDraws | null;
}

export interface ByDraws {
  readonly seed: number;
  readonly draws: number;
  readonly settled: boolean;
  readonly comparisons: readonly Comparison[];
}

/** A wish for draws: a source of chance and the seed that it was begun with. */
export interface Draws {
  readonly random: Random;
  readonly seed: number;
}

/** What sureness is worked out from. */
export interface SureBasis {
  readonly graded: Graded;
  readonly conditions: Conditions;
  readonly draws: Draws | null;
  readonly limits: readonly Limit[];
  readonly decision: Decision;
}

interface Reckoned {
  readonly budget: Budget;
  readonly byDraws: ByDraws | null;
}

/** Every number once, by its name. */
const eachOnce = (asked: readonly Measurand[]): Measurand[] => [
  ...new Map(asked.map((on) => [measurandName(on), on])).values(),
];

const SIZES: readonly Measurand[] = PERCENTILES.map((pct) => ({ kind: "percentileUm", passingPct: Number(pct) }));

function reckoned({ graded, conditions, draws, limits }: SureBasis): Reckoned {
  const limited = limits.map(({ on }) => on);
  const budget = budgetOf(graded, conditions, eachOnce([...limited, ...EVERYTHING]));
  if (draws === null) return { budget, byDraws: null };
  const drawn = eachOnce([...budget.passing.map(({ on }) => on), ...limited, ...SIZES]);
  const { budget: checked, ...rest } = withDraws(graded, conditions, budget, drawn, draws.random);
  return { budget: checked, byDraws: { seed: draws.seed, ...rest } };
}

/** How sure one number is, as a guarded rule asks for it. Nothing included is nothing known, not certainty. */
function limitSure(sure: Sureness | undefined): LimitSure {
  if (!sure) return { determinable: false, reason: "it was not asked" };
  if (!sure.determinable) return sure;
  if (sure.components.some(({ included }) => included)) return { determinable: true, u: sure.u };
  return { determinable: false, reason: "no source of uncertainty is known or counted" };
}

const named = ({ budget }: Reckoned, name: string): Sureness | undefined =>
  budget.asked.find((sure) => sure.name === name) ?? budget.passing.find((sure) => sure.name === name);

function sureLimit(limit: Limit, judged: JudgedLimit, sure: Sureness | undefined, decision: Decision): SureLimit[] {
  // A verdict of a time without budgets stays what it was: nothing beside it says otherwise.
  if (!sure?.determinable || !limitSure(sure).determinable || judged.result === "not determinable") return [];
  const range = realEnds(turningEnds(limit, decision.compare), boundsOf(sure.unit));
  if (range.min === null && range.max === null) return [];
  const rule = ruleOf(decision, limit.decision);
  return [
    {
      judged,
      rule,
      sure,
      limit: range,
      decided: decidedOn(limit, sure.value, sure.u, sure.unit, decision),
      ...(rule.guard ? { guard: rule.guard } : {}),
    },
  ];
}

function fewGrainsOf({ budget }: Reckoned, limits: readonly SureLimit[], guard: Guard): FewGrains[] {
  return limits.flatMap(({ sure, limit, guard: own }) =>
    sure.on.kind === "passingPct"
      ? fewGrains(budget, [{ ...limit, apertureUm: sure.on.apertureUm }], own ?? guard)
      : [],
  );
}

/** A value worked out when it is first asked for, and then kept. */
export function onDemand<T>(work: () => T): () => T {
  let kept: { readonly found: T } | null = null;
  return () => {
    kept ??= { found: work() };
    return kept.found;
  };
}

/** How sure the numbers of one test are: a little for a guarded verdict, all of it where it is shown. */
export interface Sureties {
  /** How sure the numbers of guarded limits are; asked only where there is a guarded limit. */
  readonly sureOf: (on: string) => LimitSure;
  /** Everything, with the limits as they were judged. */
  readonly all: (judged: readonly JudgedLimit[]) => HowSure;
}

/**
 * Makes ready to say how sure a test is, and works out nothing yet. A guarded verdict asks for the numbers of the guarded
 * limits alone, which is cheap; the whole budget is worked out when it is first shown. Both are the same function, so that
 * the verdict and what is shown beside it never differ. Where draws are wished for all of it is drawn at once.
 */
export function suretiesOf(basis: () => SureBasis): Sureties {
  const whole = onDemand(() => reckoned(basis()));
  const few = onDemand((): Reckoned => {
    const { graded, conditions, draws, limits, decision } = basis();
    if (draws !== null) return whole();
    const guarded = limits.filter((limit) => ruleOf(decision, limit.decision).kind !== "simple");
    const asked = guarded.map(({ on }) => on);
    return { budget: budgetOf(graded, conditions, asked), byDraws: null };
  });
  return {
    sureOf: (on) => limitSure(named(few(), on)),
    all: (judged) => {
      const { graded, conditions, limits, decision } = basis();
      const { budget, byDraws } = whole();
      const guard = ruleOf(decision, undefined).guard ?? DEFAULT_GUARD;
      const sure = limits.flatMap((limit, i) => {
        const one = judged[i];
        return one ? sureLimit(limit, one, named(whole(), limitName(limit.on)), decision) : [];
      });
      const { sampling } = conditions;
      const chargeG = graded.grading.chargeG ?? graded.grading.totalG;
      const situation = { budget, chargeG, guard, ...(sampling ? { sampling } : {}) };
      const decides = whatDecides(sure, situation);
      return { budget, byDraws, limits: sure, decides, fewGrains: fewGrainsOf({ budget, byDraws }, sure, guard) };
    },
  };
}
