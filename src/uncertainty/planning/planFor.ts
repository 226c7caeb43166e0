import { normalQuantile } from "../../grading/normal.ts";
import { type Budget, budgetOf, type Included } from "../budget.ts";
import type { Conditions } from "../conditions.ts";
import type { LimitRange } from "../decision/decide.ts";
import type { Graded } from "../graded.ts";
import { type Measurand, measurandName } from "../measurand.ts";
import { planLimit, type Setting } from "./planLimit.ts";
import type { PlanLine } from "./planLine.ts";
import { type LargestPortion, largestPortion, portionsFor, type SieveLoadLimit } from "./portions.ts";

export interface PlannedLimit extends LimitRange {
  readonly on: Measurand;
  /** Where the verdict really turns, if values are rounded before they are compared. */
  readonly turns?: LimitRange;
}

/** What a plan is made from: the limits of a product and a typical test of it. */
export interface PlanBasis {
  readonly limits: readonly PlannedLimit[];
  /** A typical test: its curve, of the charge in question. */
  readonly typical: Graded;
  readonly loads?: readonly SieveLoadLimit[];
  /** In how many portions that charge is sieved; without it as many as the load limits ask for. */
  readonly portions?: number;
  /** What the method asks for at least, in g: no charge below it is named. */
  readonly leastG?: number;
}

export interface Plan {
  readonly risk: number;
  /** Guard band in standard uncertainties: the one-sided normal quantile of the risk. */
  readonly z: number;
  /** The charge in question, in so many portions; and in how many it must be sieved so that no sieve is overloaded. */
  readonly presentG: number;
  readonly presentPortions: number;
  readonly portionsNeeded: number;
  readonly largestPortion: LargestPortion | null;
  readonly lines: readonly PlanLine[];
  /** The charge that decides every limit that any charge decides, and its portions. */
  readonly chargeG: number;
  readonly portions: number;
  /** What the uncertainty is made up of, and what is not included. */
  readonly components: readonly Included[];
}

/** The budget of the typical test sieved in so many portions, worked out once each: every portion is weighed anew. */
function budgets({ typical, limits }: PlanBasis, conditions: Conditions): (portions: number) => Budget {
  const known = new Map<number, Budget>();
  const asked = limits.map((limit) => limit.on);
  return (portions) => {
    const { balance } = conditions;
    const inPortions = balance === undefined ? conditions : { ...conditions, balance: { ...balance, portions } };
    const budget = known.get(portions) ?? budgetOf(typical, inPortions, asked);
    known.set(portions, budget);
    return budget;
  };
}

function lineFor(limit: PlannedLimit, at: number, setting: Setting): PlanLine {
  const { min, max, on } = limit;
  const sure = setting.budgetIn(setting.presentPortions).asked[at];
  if (sure?.determinable) return planLimit(sure, limit, at, setting);
  return { on, min, max, name: measurandName(on), planned: false, reason: sure?.reason ?? "it was not asked" };
}

/**
 * What it takes to judge each limit of a product at a given risk: the least charge with which a typical result is
 * inside its limit by a guard band of `z u`, z the one-sided normal quantile of the risk, and the portions that the
 * load limits of the sieves then ask for. The variance is split into what does not depend on the charge (apertures,
 * loss, end point, sampling before the charge), what falls with it (grains) and what falls with its square (balance);
 * every portion brings readings of its own.
 *
 * A limit is "too narrow" for the method where even a result in its middle, of an endless charge, would lie within the
 * guard band; beside it stands the published rule of the European cross-test. An end at 0 or 100 % is no limit.
 *
 * @param basis the limits, a typical test with its present charge, the load limits
 * @param risk of a wrong acceptance, 0 to 0.5; 0.05 if nothing is said
 */
export function planFor(basis: PlanBasis, conditions: Conditions, risk = 0.05): Plan {
  const { typical, limits, loads = [] } = basis;
  const presentG = typical.grading.chargeG ?? typical.grading.totalG;
  const largest = largestPortion(typical, loads);
  const portionsNeeded = portionsFor(presentG, largest);
  const presentPortions = basis.portions ?? portionsNeeded;
  const z = normalQuantile(1 - risk);
  const budgetIn = budgets(basis, conditions);
  const { leastG = 0 } = basis;
  const setting = {
    budgetIn,
    sampling: conditions.sampling,
    z,
    presentG,
    presentPortions,
    largest,
    allowedLeastG: leastG,
  };
  const lines = limits.map((limit, at) => lineFor(limit, at, setting));
  const larger = lines.flatMap((line) => (line.planned && line.verdict === "larger charge" ? [line] : []));
  const chargeG = Math.max(presentG, leastG, ...larger.map((line) => line.chargeG ?? 0));
  return {
    risk,
    z,
    presentG,
    presentPortions,
    portionsNeeded,
    largestPortion: largest,
    lines,
    chargeG,
    portions: Math.max(portionsNeeded, portionsFor(chargeG, largest), ...larger.map(({ portions }) => portions ?? 0)),
    components: budgetIn(presentPortions).components,
  };
}
