import { chargeOutside, type ProductPlan } from "../assess/productPlan.ts";
import type { PlanLine } from "../uncertainty/planning/planLine.ts";
import { fromWords, limitWords, type PlanFrom, planWords } from "./planWords.ts";

function lineJson(line: PlanLine, told: ProductPlan) {
  const words = limitWords(line, told);
  const { min, max, name } = line;
  if (!line.planned) return { on: name, min, max, verdict: "not planned", reason: line.reason, words };
  const { typical, unit, u, U, uFloor, wantedU, verdict, leastG, chargeG, portions } = line;
  const { largest, floorFrom, leastWidth, grains, crossTest } = line;
  return {
    ...{ on: name, min, max, verdict, typical, unit, u, U, uFloor, wantedU, leastG, chargeG, portions },
    ...{ largest, floorFrom, leastWidth, grains, crossTest, words },
  };
}

/**
 * A plan as other programs read it, unrounded but for `chargeG` of a limit, which is `leastG` rounded up to a charge that
 * one would weigh. What there is not is null.
 */
export function planJson(told: ProductPlan, from: PlanFrom) {
  const { product, plan, allowedG, loadLimits } = told;
  return {
    schema: "sievewright.plan/1",
    product: product.code,
    revision: product.revision,
    riskPct: Number((100 * plan.risk).toPrecision(12)),
    guardFactor: plan.z,
    typical: { ...from, words: fromWords(from).replace(/^from /, "") },
    chargeG: plan.presentG,
    portions: plan.presentPortions,
    portionsNeeded: plan.portionsNeeded,
    largestPortionG: plan.largestPortion?.portionG ?? null,
    fullestUm: plan.largestPortion?.fullestUm ?? null,
    loadLimits,
    allowedG,
    chargeOutsideMethod: chargeOutside(told),
    limits: plan.lines.map((line) => lineJson(line, told)),
    needed: { chargeG: plan.chargeG, portions: plan.portions },
    words: planWords(told),
    components: plan.components,
  };
}
