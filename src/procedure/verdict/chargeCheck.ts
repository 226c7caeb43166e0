import { type ChargeBound, leastCharge, mostCharge } from "../charge/chargeRange.ts";
import { readabilityNeededG } from "../charge/readability.ts";
import { isAbove, isBelow } from "../compare.ts";
import type { ProcedureRules } from "../rules/resolve.ts";
import { cited } from "../rules/ruleSet.ts";
import { massWords } from "../wording.ts";
import { met, notAsked, notDone, notMet, type ProcedureCheck } from "./check.ts";
import type { ProcedureFacts } from "./facts.ts";

/** Is the charge large enough for the material and not larger than wanted? The product's range wins over the rule set's. */
export function chargeCheck(facts: ProcedureFacts, rules: ProcedureRules): ProcedureCheck {
  const { chargeG } = facts.grading;
  const bounds = { least: leastCharge(rules.charge), most: mostCharge(rules.charge) };
  const [leastG, mostG] = [massOf(bounds.least), massOf(bounds.most)];
  const limits = [
    ...(leastG === null ? [] : [`at least ${massWords(leastG)}`]),
    ...(mostG === null ? [] : [`at most ${massWords(mostG)}`]),
  ];
  const rule = limits.join(", ") || "charge large enough for the largest particle";
  const source = (bounds.least ?? bounds.most)?.source ?? "the product";
  const unknown = bounds.least?.bound;
  if (unknown && !unknown.determinable) {
    const remedy = "give the largest particle, or a smallest charge, in the product's method";
    return notDone("charge", false, `no smallest charge: ${unknown.reason}`, {
      id: "charge-unjudged",
      rule,
      source,
      remedy,
    });
  }
  if (limits.length === 0) return notAsked("charge", "no range of the charge is set for this product");
  if (chargeG === null) {
    const remedy = "next time weigh the charge before it goes on the stack";
    return notDone("charge", false, "the charge was not weighed", { id: "charge-unknown", rule, source, remedy });
  }
  if (leastG !== null && isBelow(chargeG, leastG)) return tooSmall(chargeG, leastG, source, rules);
  if (mostG !== null && isAbove(chargeG, mostG)) return tooLarge(chargeG, mostG, bounds.most?.source ?? source, rules);
  return met("charge", false, `charge ${massWords(chargeG)}, wanted ${rule}`);
}

const massOf = (from: ChargeBound | null): number | null => (from?.bound.determinable ? from.bound.value : null);

function tooSmall(chargeG: number, leastG: number, source: string, rules: ProcedureRules): ProcedureCheck {
  const [found, limit] = [massWords(chargeG, leastG), `at least ${massWords(leastG)}`];
  const text = `a charge of ${found} is too small to stand for the material`;
  const remedy = `split a portion of ${limit} and repeat the test`;
  const words = { text, found, limit, rule: `charge ${limit}`, source, remedy };
  return notMet("charge", false, text, [{ id: "charge-small", severity: rules.charge.outside, ...words }]);
}

function tooLarge(chargeG: number, mostG: number, source: string, rules: ProcedureRules): ProcedureCheck {
  const [found, limit] = [massWords(chargeG, mostG), `at most ${massWords(mostG)}`];
  const text = `a charge of ${found} is larger than the method wants`;
  const remedy = "split it once more, or sieve it in portions";
  const words = { text, found, limit, rule: `charge ${limit}`, source, remedy };
  return notMet("charge", false, text, [{ id: "charge-large", severity: rules.charge.outside, ...words }]);
}

/** Does the balance read finely enough for this charge? */
export function readabilityCheck(facts: ProcedureFacts, rules: ProcedureRules): ProcedureCheck {
  const { readability } = rules.balance;
  const { chargeG } = facts.grading;
  if (readability === null) return notAsked("readability", "no readability is asked of the balance");
  if (chargeG === null || facts.readabilityG === null)
    return notAsked("readability", "readability can't be judged without charge and balance");
  const neededG = readabilityNeededG(readability, chargeG);
  if (neededG === undefined || !isAbove(facts.readabilityG, neededG))
    return met("readability", false, `the balance reads ${massWords(facts.readabilityG)}, fine enough for this charge`);
  const found = massWords(facts.readabilityG);
  const limit = massWords(neededG);
  const text = `the balance reads in steps of ${found}, too coarse for a charge of ${massWords(chargeG)}`;
  const notice = { id: "balance-coarse", severity: "warning", text, found, limit, source: cited(readability) } as const;
  const remedy = `use a balance that reads ${limit} or finer, or a larger charge`;
  return notMet("readability", false, text, [{ ...notice, rule: `readability at most ${limit}`, remedy }]);
}
