import type { ReadabilityRule } from "../rules/ruleSet.ts";

/**
 * The coarsest readability in g that a balance may have for a charge: the larger of the method's step and its share
 * of the charge (0.1 % in ASTM C136, AASHTO T 27).
 *
 * @returns g; undefined where the rule names neither
 * @source ASTM C136 checklist 09/2020 (seen); AASHTO T 27-14 apparatus (seen)
 * @example readabilityNeededG({ stepG: 0.1, pctOfCharge: 0.1, standing: "seen", source: "" }, 500) // => 0.5
 */
export function readabilityNeededG(rule: ReadabilityRule, chargeG: number): number | undefined {
  if (rule.stepG === null && rule.pctOfCharge === null) return undefined;
  return Math.max(rule.stepG ?? 0, ((rule.pctOfCharge ?? 0) * chargeG) / 100);
}
