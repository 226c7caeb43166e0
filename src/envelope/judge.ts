import { roundHalfEvenToStep } from "../grading/rounding.ts";
import type { Decision } from "../record/decision.ts";
import type { Determination } from "../record/determination.ts";
import type { ProductVerdict, TestVerdict } from "../record/test.ts";
import { type JudgedLimit, type Limit, type LimitResult, limitName } from "./limit.ts";

const GUARD_UNKNOWN = "a guarded decision needs the uncertainty of this value, which is not computed";

/** The number that is compared with the limit: as computed, or rounded half to even to the product's step (ASTM E29). */
function compared(value: number, decision: Decision): number {
  const { compare } = decision;
  return compare === undefined || compare === "absolute" ? value : roundHalfEvenToStep(value, compare.roundedTo);
}

function side(compareWith: number, limit: Limit): LimitResult {
  if (limit.min !== null && compareWith < limit.min) return "below";
  return limit.max !== null && compareWith > limit.max ? "above" : "within";
}

/**
 * One limit against what the test found. Both bounds are inclusive: a value on the limit is within.
 * Nothing is rounded first unless the product says so (`decision.compare`). What was not found is "not determinable",
 * with the reason. A guarded decision without an uncertainty can tell what lies outside, but never call a value within.
 */
export function judgeLimit(limit: Limit, found: Determination, decision: Decision): JudgedLimit {
  const { min, max } = limit;
  const on = limitName(limit.on);
  if (!found.determinable) return { on, value: null, min, max, result: "not determinable", reason: found.reason };
  const result = side(compared(found.value, decision), limit);
  const told = found.assumptions ? { reason: found.assumptions.join("; ") } : {};
  if (decision.rule === "guarded" && result === "within") {
    return { on, value: found.value, min, max, result: "not determinable", reason: GUARD_UNKNOWN };
  }
  return { on, value: found.value, min, max, result, ...told };
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
