import { deviations } from "../program/deviations.ts";
import type { ProcedureRules } from "../rules/resolve.ts";
import { met, notAsked, notDone, notMet, type ProcedureCheck } from "./check.ts";
import type { ProcedureFacts } from "./facts.ts";

/** Did the shaker run as the program says? */
export function programCheck(facts: ProcedureFacts, rules: ProcedureRules): ProcedureCheck {
  const { required, deviation } = rules.program;
  const { program, run } = facts;
  if (program === null && !required) return notAsked("program", "no program is set for this product");
  const rule = program === null ? "a program" : `program ${program.code}`;
  const founded = { rule, source: "the product" };
  if (program === null || run === null) {
    const text = program === null ? "no program was chosen" : "it was not noted how the shaker ran";
    const remedy = "run the shaker on the product's program and note its time";
    return notDone("program", required, text, { id: "program-unknown", ...founded, remedy });
  }
  const differences = deviations(program, run);
  if (differences.length === 0) return met("program", required, `ran as program ${program.code} says`);
  const text = `the shaker did not run as program ${program.code} says: ${differences.join("; ")}`;
  const remedy =
    "set the shaker as the program says and repeat, or check the end point to show that sieving was complete";
  const notice = { id: "program-deviation", severity: deviation, text, found: differences.join("; "), limit: null };
  return notMet("program", required, text, [{ ...notice, ...founded, remedy }]);
}
