import { type EndPointResult, endPointOf, type SieveEndPoint } from "../endPoint/endPoint.ts";
import { endPointText } from "../rules/inForce.ts";
import type { ProcedureRules } from "../rules/resolve.ts";
import { cited } from "../rules/ruleSet.ts";
import { durationWords, listed, massWords, pctWords, sieveWords } from "../wording.ts";
import { met, notAsked, notDone, notMet, type ProcedureCheck, type ProcedureNotice } from "./check.ts";
import type { ProcedureFacts } from "./facts.ts";

/** Was sieving complete when it was stopped? */
export function endPointCheck(facts: ProcedureFacts, rules: ProcedureRules): ProcedureCheck {
  const { criterion, required } = rules.endPoint;
  if (criterion === null)
    return required ? noCriterion() : notAsked("end point", "no end point is set for this product");
  const { rows, chargeG } = facts.grading;
  const result = endPointOf(criterion, facts.endPoint, rows, chargeG);
  const rule = endPointText(criterion);
  const failed = result.sieves.filter((sieve) => sieve.reached === false);
  if (failed.length > 0) {
    const notices = failed.map((sieve) => notReached(sieve, rules, rule, cited(criterion)));
    return notMet(
      "end point",
      required,
      `sieving was not complete on ${sieveList(failed.map((s) => s.apertureUm))}`,
      notices,
    );
  }
  if (result.state === "reached") return met("end point", required, `end point reached, ${mostPassed(result.sieves)}`);
  const unknown = result.sieves.find((sieve) => sieve.reached === null);
  const missing = `the end point was not checked on ${sieveList(result.missingUm)}`;
  const text = facts.endPoint.length === 0 ? "the end point was not checked" : (unknown?.reason ?? missing);
  const which = facts.endPoint.length === 0 && criterion.sieves === "every" ? "each loaded sieve" : missingOr(result);
  const remedy = `sieve ${which} alone for ${durationWords(criterion.periodS)} over a clean pan and weigh what passes`;
  return notDone("end point", required, text, { id: "end-point-unknown", rule, source: cited(criterion), remedy });
}

function noCriterion(): ProcedureCheck {
  const remedy = "give a criterion in the product's procedure, or name a rule set that has one";
  const missing = { id: "end-point-unset", rule: "an end point", source: "the product", remedy };
  return notDone("end point", true, "the product requires an end point but says not which", missing);
}

const missingOr = ({ missingUm }: EndPointResult): string =>
  missingUm.length > 0 ? sieveList(missingUm) : "the checked sieves";

const sieveList = (aperturesUm: readonly number[]): string => listed(aperturesUm.map(sieveWords));

function mostPassed(sieves: readonly SieveEndPoint[]): string {
  const most = Math.max(...sieves.map((sieve) => sieve.passedPct ?? 0));
  return `at most ${pctWords(most)} passed in the check`;
}

function notReached(sieve: SieveEndPoint, rules: ProcedureRules, rule: string, source: string): ProcedureNotice {
  const { apertureUm, passedG, passedPct, limitPct } = sieve;
  const found = pctWords(passedPct ?? 0, limitPct);
  return {
    id: "end-point-not-reached",
    severity: rules.endPoint.notReached,
    text: `${sieveWords(apertureUm)} still let ${massWords(passedG)} (${found}) through in the check`,
    found,
    limit: `${limitPct} %`,
    rule,
    source,
    remedy: `put the stack back on the shaker, then check ${sieveWords(apertureUm)} again; if this comes often, lengthen the program`,
  };
}
