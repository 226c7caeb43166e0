import type { Decision, LimitDecision } from "../../record/decision.ts";
import type { DecisionRule, Guard } from "./decide.ts";

const guardOf = (guard: NonNullable<Decision["guard"]>): Guard => ("u" in guard ? { z: guard.u } : { r: guard.r });

/** The rule that decides one limit: what the limit states itself, else what the product states for all. */
export function ruleOf(decision: Decision | undefined, own: LimitDecision | undefined): DecisionRule {
  const { rule = "simple", guards = "acceptance", guard, side } = { ...decision, ...own };
  if (rule === "simple") return { kind: "simple" };
  return {
    kind: `guarded ${guards}`,
    ...(guard ? { guard: guardOf(guard) } : {}),
    ...(side ? { side } : {}),
  };
}
