import type { EndPointCriterion } from "../../record/procedure.ts";
import { durationWords, massWords, pctWords } from "../wording.ts";
import type { ProcedureRules } from "./resolve.ts";
import type { ChargeRule, Founded, LoadRule } from "./ruleSet.ts";

/** One rule in force as a report shows it: what it says, and how well that is founded. */
export interface RuleInForce extends Founded {
  readonly rule: "loss" | "charge" | "load" | "end point" | "readability";
  readonly text: string;
}

/** Every rule in force, so that none applies unseen; the order of the work: charge, balance, load, end point, loss. */
export function rulesInForce(rules: ProcedureRules): RuleInForce[] {
  const { maxLossPct } = rules;
  const charge = rules.charge.rule;
  const load = rules.load.rule;
  const endPoint = rules.endPoint.criterion;
  const readability = rules.balance.readability;
  return [
    ...(charge ? [{ rule: "charge" as const, text: chargeText(charge), ...foundation(charge) }] : []),
    ...(readability
      ? [{ rule: "readability" as const, text: readabilityText(readability), ...foundation(readability) }]
      : []),
    ...(load ? [{ rule: "load" as const, text: loadText(load), ...foundation(load) }] : []),
    ...(endPoint ? [{ rule: "end point" as const, text: endPointText(endPoint), ...foundation(endPoint) }] : []),
    ...(maxLossPct
      ? [{ rule: "loss" as const, text: `loss or gain at most ${maxLossPct.value} %`, ...foundation(maxLossPct) }]
      : []),
  ];
}

const foundation = ({ standing, source }: Founded): Founded => ({ standing, source });

/** The end-point criterion in one sentence. */
export function endPointText(criterion: EndPointCriterion): string {
  const { of, limitPct, below, periodS, orG, sieves } = criterion;
  const which = { every: "each sieve", "finest loaded": "the finest loaded sieve", any: "the checked sieve" }[sieves];
  const whole = of === "charge" ? "the charge" : "what it holds";
  const or = orG === undefined ? "" : ` or ${massWords(orG)}`;
  return `${which} passes ${below ? "less than" : "at most"} ${limitPct} % of ${whole}${or} in ${durationWords(periodS)}`;
}

function loadText(load: LoadRule): string {
  if (load.kind === "root-of-aperture") return `at most ${load.gPerMm2} g x area (mm2) x root of aperture (mm)`;
  if (load.kind === "own") return "the product's own limits in g";
  const fromMm = load.coarseFromUm / 1000;
  return `at most ${load.fineKgPerM2} kg/m2 below ${fromMm} mm, ${load.coarseKgPerM2PerMm} kg/m2 for each mm of aperture from there`;
}

function chargeText(charge: ChargeRule): string {
  if (charge.kind === "by size") return "at least the method's mass for the largest particle";
  return charge.maxG === null
    ? `at least ${massWords(charge.minG)}`
    : `${massWords(charge.minG)} to ${massWords(charge.maxG)}`;
}

function readabilityText({ stepG, pctOfCharge }: { stepG: number | null; pctOfCharge: number | null }): string {
  const parts = [
    ...(stepG === null ? [] : [massWords(stepG)]),
    ...(pctOfCharge === null ? [] : [`${pctWords(pctOfCharge)} of the charge`]),
  ];
  return `the balance reads ${parts.join(" or ")}${parts.length > 1 ? ", whichever is larger" : ""}`;
}
