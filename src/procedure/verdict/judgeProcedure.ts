import type { TestVerdict } from "../../record/test.ts";
import { type RuleInForce, rulesInForce } from "../rules/inForce.ts";
import type { ProcedureRules } from "../rules/resolve.ts";
import { balanceCheck, moistureCheck, sievesCheck, washingCheck } from "./beforeChecks.ts";
import { chargeCheck, readabilityCheck } from "./chargeCheck.ts";
import type { ProcedureCheck, ProcedureNotice } from "./check.ts";
import { endPointCheck } from "./endPointCheck.ts";
import type { ProcedureFacts } from "./facts.ts";
import { loadCheck } from "./loadCheck.ts";
import { lossCheck } from "./lossCheck.ts";
import { programCheck } from "./programCheck.ts";

export interface ProcedureVerdict {
  readonly verdict: TestVerdict;
  /** In the order of the work. */
  readonly checks: readonly ProcedureCheck[];
  /** Gravest first, then in the order of the work. */
  readonly notices: readonly ProcedureNotice[];
  readonly rules: readonly RuleInForce[];
}

const CHECKS = [
  balanceCheck,
  sievesCheck,
  chargeCheck,
  readabilityCheck,
  moistureCheck,
  washingCheck,
  programCheck,
  loadCheck,
  endPointCheck,
  lossCheck,
] as const;

const GRAVITY = { invalidates: 0, warning: 1, note: 2 } as const;

/**
 * Is the test itself valid, whatever the product? One notice that invalidates makes it "invalid"; a check that the
 * product requires and that was not made leaves it "not checked"; otherwise it is "valid" if the loss was checked,
 * else "not checked".
 *
 * @source the rules in force, each with its source and standing in `rules`
 */
export function judgeProcedure(facts: ProcedureFacts, rules: ProcedureRules): ProcedureVerdict {
  const checks = CHECKS.map((check) => check(facts, rules));
  const notices = checks.flatMap((c) => c.notices).toSorted((a, b) => GRAVITY[a.severity] - GRAVITY[b.severity]);
  return { verdict: verdictOf(checks, notices), checks, notices, rules: rulesInForce(rules) };
}

function verdictOf(checks: readonly ProcedureCheck[], notices: readonly ProcedureNotice[]): TestVerdict {
  if (notices.some((notice) => notice.severity === "invalidates")) return "invalid";
  const lossMade = checks.some((c) => c.check === "loss" && (c.state === "met" || c.state === "not met"));
  const lacking = checks.some((c) => c.required && c.state === "not done");
  return lossMade && !lacking ? "valid" : "not checked";
}
