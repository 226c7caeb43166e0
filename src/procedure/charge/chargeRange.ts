import { type Determination, determined, undetermined } from "../../record/determination.ts";
import { isAbove } from "../compare.ts";
import { fairLoadG } from "../load/fairLoad.ts";
import type { ProcedureRules } from "../rules/resolve.ts";
import { cited, type Founded } from "../rules/ruleSet.ts";
import { minimumChargeG } from "./minimumCharge.ts";
import { type SieveCapacity, stackCapacityG } from "./stackCapacity.ts";

/** A bound of the charge in g, and whose it is. */
export interface ChargeBound {
  readonly bound: Determination;
  readonly source: string;
}

const OWN: Founded = { standing: "own", source: "the product" };
const bound = (from: Founded, found: Determination): ChargeBound => ({ bound: found, source: cited(from) });

/** The smallest charge: the product's own minimum, else the rule set's for its largest particle; null where neither is set. */
export function leastCharge({ ownMinG, rule, largestMm }: ProcedureRules["charge"]): ChargeBound | null {
  if (ownMinG !== null) return bound(OWN, determined(ownMinG, "g"));
  return rule === null ? null : bound(rule, minimumChargeG(rule, largestMm));
}

/** The largest charge that product or rule set allow by themselves, whatever the sieves; null where neither sets one. */
export function mostCharge({ ownMaxG, rule }: ProcedureRules["charge"]): ChargeBound | null {
  if (ownMaxG !== null) return bound(OWN, determined(ownMaxG, "g"));
  return rule?.kind === "fixed" && rule.maxG !== null ? bound(rule, determined(rule.maxG, "g")) : null;
}

export interface ChargeRange {
  readonly least: ChargeBound | null;
  readonly most: ChargeBound | null;
  /** In how many portions the least charge must be sieved so that the stack carries it; 1 where both bounds agree. */
  readonly portions: number;
}

/**
 * The range of the charge before it goes on the stack: enough for the largest particle, and not more than product and
 * sieves allow. Where the two collide the least charge is sieved in portions, each within the most.
 *
 * @param stackUm apertures of the stack in um
 * @param usualPct what each sieve usually holds, in % of the charge, by aperture; empty where nothing is usual
 * @source the rules in force; see `minimumChargeG`, `stackCapacityG`, `fairLoadG`
 */
export function chargeRange(
  rules: ProcedureRules,
  stackUm: readonly number[],
  usualPct: ReadonlyMap<number, number>,
): ChargeRange {
  const least = leastCharge(rules.charge);
  const most = tighter(mostCharge(rules.charge), stackBound(rules.load, stackUm, usualPct));
  if (!least?.bound.determinable || !most?.bound.determinable) return { least, most, portions: 1 };
  const [leastG, mostG] = [least.bound.value, most.bound.value];
  return { least, most, portions: isAbove(leastG, mostG) ? Math.ceil(leastG / mostG) : 1 };
}

function stackBound(
  { rule, frame }: ProcedureRules["load"],
  stackUm: readonly number[],
  usualPct: ReadonlyMap<number, number>,
): ChargeBound | null {
  if (rule === null) return null;
  const limits = stackUm.map((apertureUm) => ({ apertureUm, limit: fairLoadG(rule, apertureUm, frame) }));
  const unknown = limits.find(({ limit }) => !limit.determinable)?.limit;
  if (unknown && !unknown.determinable) return bound(rule, undetermined(unknown.reason));
  const sieves: SieveCapacity[] = limits.flatMap(({ apertureUm, limit }) =>
    limit.determinable ? [{ apertureUm, limitG: limit.value, usualPct: usualPct.get(apertureUm) }] : [],
  );
  return bound(rule, stackCapacityG(sieves));
}

function tighter(a: ChargeBound | null, b: ChargeBound | null): ChargeBound | null {
  if (!a?.bound.determinable) return b ?? a;
  return b?.bound.determinable && b.bound.value < a.bound.value ? b : a;
}
