import type { HowSure, SureLimit } from "../assess/howSure.ts";
import type { HowSureJson } from "../record/howSure.ts";
import { BUDGET_MODEL } from "../record/uncertainty.ts";
import type { Sureness } from "../uncertainty/budget.ts";
import { decidesWords } from "./sureWords.ts";

type SureJson = HowSureJson["others"][string];

function sureJson(sure: Sureness): SureJson {
  if (!sure.determinable) return { determinable: false, reason: sure.reason };
  const { value, unit, u, U, interval, by = "first order", components } = sure;
  const parts = components.flatMap((part) => (part.included ? [[part.id, part.u] as const] : []));
  const { low, high } = interval;
  return { determinable: true, value, unit, u, U, low, high, by, components: Object.fromEntries(parts) };
}

const limitJson = ({ judged, decided, rule }: SureLimit): HowSureJson["limits"][number] => {
  const { guard, acceptance, result, conformity, consumerRisk, producerRisk } = decided;
  return { on: judged.on, rule: rule.kind, guard, acceptance, result, conformity, consumerRisk, producerRisk };
};

function decidesJson(howSure: HowSure): HowSureJson["decides"] {
  if (!howSure.decides) return null;
  const { name, side, result, toLimit, distance, largest } = howSure.decides;
  const most = largest && { component: largest.id, shareOfVariance: largest.shareOfVariance };
  return { on: name, side, result, toLimit, toAcceptance: distance, largest: most, words: decidesWords(howSure) };
}

function drawsJson({ byDraws }: HowSure): HowSureJson["monteCarlo"] {
  if (!byDraws) return null;
  const { seed, draws, settled, comparisons } = byDraws;
  const compared = comparisons.map(({ name, tolerance, lowApart, highApart, agree }) => ({
    on: name,
    tolerance,
    lowApart,
    highApart,
    agree,
  }));
  return { seed, draws, settled, compared };
}

/** How sure a result is, in plain values, unrounded. */
export function howSureJson(howSure: HowSure): HowSureJson {
  const { budget, limits, fewGrains } = howSure;
  const passingPct = budget.passing.flatMap((sure) =>
    sure.on.kind === "passingPct" ? [{ apertureUm: sure.on.apertureUm, sure: sureJson(sure) }] : [],
  );
  const onSieves = new Set(budget.passing.map(({ name }) => name));
  const others = budget.asked
    .filter(({ name }) => !onSieves.has(name))
    .map((sure) => [sure.name, sureJson(sure)] as const);
  return {
    model: BUDGET_MODEL,
    coverageFactor: 2,
    components: [...budget.components],
    passingPct,
    others: Object.fromEntries(others),
    limits: limits.map(limitJson),
    decides: decidesJson(howSure),
    fewGrains: fewGrains.map(({ apertureUm, side, grains, needed }) => ({ apertureUm, side, grains, needed })),
    monteCarlo: drawsJson(howSure),
  };
}
