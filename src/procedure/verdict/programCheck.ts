import { endPointOf } from "../endPoint/endPoint.ts";
import { deviations, ranTooShort } from "../program/deviations.ts";
import type { ProcedureRules } from "../rules/resolve.ts";
import { met, notAsked, notDone, notMet, type ProcedureCheck } from "./check.ts";
import type { ProcedureFacts } from "./facts.ts";

/** Did the shaker run as the program says? Shaking cut short proves nothing unless the end point was proven. */
export function programCheck(facts: ProcedureFacts, rules: ProcedureRules): ProcedureCheck {
  const { program, run } = facts;
  if (program === null && !rules.program.required) return notAsked("program", "no program is set for this product");
  const rule = program === null ? "a program" : `program ${program.code}`;
  const founded = { rule, source: "the product" };
  if (program === null || run === null) {
    const text = program === null ? "no program was chosen" : "it was not noted how the shaker ran";
    const remedy = "run the shaker on the product's program and note its time";
    return notDone("program", mustBeNoted(facts, rules), text, { id: "program-unknown", ...founded, remedy });
  }
  const { required, deviation, cutShort } = rules.program;
  const differences = deviations(program, run);
  if (differences.length === 0) return met("program", required, `ran as program ${program.code} says`);
  const short = ranTooShort(program, run);
  const proven = short && isProven(facts, rules);
  const text = `the shaker did not run as program ${program.code} says: ${differences.join("; ")}${proven ? "; the end point was proven" : ""}`;
  const severity = short && !proven ? cutShort : deviation;
  const notice = { id: "program-deviation", severity, text, found: differences.join("; "), limit: null };
  return notMet("program", required, text, [{ ...notice, ...founded, remedy: remedyOf(rules) }]);
}

function remedyOf({ endPoint }: ProcedureRules): string {
  const again = "set the shaker as the program says and repeat";
  return endPoint.criterion === null
    ? `${again}: the product has no end point by which a check could show that sieving was complete`
    : `${again}, or check the end point to show that sieving was complete`;
}

function isProven({ grading, endPoint }: ProcedureFacts, rules: ProcedureRules): boolean {
  const { criterion } = rules.endPoint;
  return criterion !== null && endPointOf(criterion, endPoint, grading.rows, grading.chargeG).state === "reached";
}

/** Where the countdown was passed over, nobody knows how long the shaker ran. */
const mustBeNoted = (facts: ProcedureFacts, rules: ProcedureRules): boolean =>
  rules.program.required || (facts.cutShort && rules.program.cutShort === "invalidates" && !isProven(facts, rules));
