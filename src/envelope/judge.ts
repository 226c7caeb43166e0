import { roundHalfEvenToStep } from "../grading/rounding.ts";
import type { Decision } from "../record/decision.ts";
import type { Determination } from "../record/determination.ts";
import type { ProductVerdict, TestVerdict } from "../record/test.ts";
import { type Decided, type DecisionRule, decide } from "../uncertainty/decision/decide.ts";
import { ruleOf } from "../uncertainty/decision/ruleOf.ts";
import { COVERAGE_FACTOR } from "../uncertainty/interval.ts";
import { boundsOf } from "../uncertainty/measurand.ts";
import { type JudgedLimit, type Limit, type LimitResult, limitName } from "./limit.ts";
import { turningEnds } from "./turningEnds.ts";

/** The standard uncertainty of the number that a limit is put on, in its own unit; or why nobody knows it. */
export type LimitSure =
  | { readonly determinable: true; readonly u: number }
  | { readonly determinable: false; readonly reason: string };

const NOT_ASKED: LimitSure = { determinable: false, reason: "it was not worked out here" };

const guardUnknown = (reason: string): string => `a guarded decision needs the uncertainty of this value: ${reason}`;

/** The number that is compared with the limit: as computed, or rounded half to even to the product's step (ASTM E29). */
function compared(value: number, { compare }: Decision): number {
  return compare === undefined || compare === "absolute" ? value : roundHalfEvenToStep(value, compare.roundedTo);
}

function side(compareWith: number, limit: Limit): "within" | "below" | "above" {
  if (limit.min !== null && compareWith < limit.min) return "below";
  return limit.max !== null && compareWith > limit.max ? "above" : "within";
}

/**
 * What a product's rule says of a number with its standard uncertainty: `decide`, with the ends at which the comparison
 * really turns and the bounds of what the quantity can be.
 */
export function decidedOn(limit: Limit, value: number, u: number, unit: string, decision: Decision): Decided {
  const rule = ruleOf(decision, limit.decision);
  return decide({ value, u, can: boundsOf(unit) }, turningEnds(limit, decision.compare), rule);
}

/** Without an uncertainty a guarded rule tells what its guard band does not touch, and nothing else. */
function withoutSureness(result: "within" | "below" | "above", { kind }: DecisionRule): boolean {
  return kind === (result === "within" ? "guarded rejection" : "guarded acceptance");
}

/**
 * One limit against what the test found. Both bounds are inclusive: a value on the limit is within.
 * Nothing is rounded first unless the product says so (`decision.compare`). What was not found is "not determinable",
 * with the reason. A guarded rule decides with the uncertainty of the number; where nobody knows it, only what lies
 * outside (acceptance guarded) or inside (rejection guarded) is told, and the rest is "not determinable" with the reason.
 *
 * @param sureOf asked only where the rule is guarded
 */
export function judgeLimit(
  limit: Limit,
  found: Determination,
  decision: Decision,
  sureOf: (on: string) => LimitSure = () => NOT_ASKED,
): JudgedLimit {
  const { min, max } = limit;
  const on = limitName(limit.on);
  if (!found.determinable) return { on, value: null, min, max, result: "not determinable", reason: found.reason };
  const { value, unit, assumptions } = found;
  const told = assumptions ? { reason: assumptions.join("; ") } : {};
  const plainly = side(compared(value, decision), limit);
  const rule = ruleOf(decision, limit.decision);
  if (rule.kind === "simple") return { on, value, min, max, result: plainly, ...told };
  const sure = sureOf(on);
  if (sure.determinable) {
    const { result, guard, conformity } = decidedOn(limit, value, sure.u, unit, decision);
    const guarded = { u: sure.u, U: COVERAGE_FACTOR * sure.u, guard, conformity };
    return { on, value, min, max, result, ...told, guarded };
  }
  if (withoutSureness(plainly, rule)) return { on, value, min, max, result: plainly, ...told };
  return { on, value, min, max, result: "not determinable", reason: guardUnknown(sure.reason) };
}

/**
 * The product's verdict from its judged limits and the verdict on the test itself.
 *
 * - no limits, or an invalid test: "not judged" (an invalid test proves nothing, neither good nor bad);
 * - any limit missed: "fail";
 * - else any limit that could not be determined: "not judged", never "pass";
 * - else any borderline limit: "borderline"; else "pass".
 */
export function productVerdict(limits: readonly JudgedLimit[], test: TestVerdict): ProductVerdict {
  const any = (...results: LimitResult[]) => limits.some((l) => results.includes(l.result));
  if (limits.length === 0 || test === "invalid") return "not judged";
  if (any("below", "above")) return "fail";
  if (any("not determinable")) return "not judged";
  return any("borderline") ? "borderline" : "pass";
}
