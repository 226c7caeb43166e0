import { accepted, type Outcome } from "../entry/outcome.ts";
import { limitsOf } from "../envelope/limit.ts";
import { turningEnds } from "../envelope/turningEnds.ts";
import { type ChargeBound, leastCharge, mostCharge } from "../procedure/charge/chargeRange.ts";
import { isAbove, isBelow } from "../procedure/compare.ts";
import { fairLoadG } from "../procedure/load/fairLoad.ts";
import { resolveRules } from "../procedure/rules/resolve.ts";
import { type Determination, determined, undetermined } from "../record/determination.ts";
import type { Product } from "../record/product.ts";
import { conditionsOf } from "../uncertainty/conditionsOf.ts";
import type { Graded } from "../uncertainty/graded.ts";
import { type Plan, planFor } from "../uncertainty/planning/planFor.ts";
import type { SieveLoadLimit } from "../uncertainty/planning/portions.ts";
import { gradedAgain } from "./gradedAgain.ts";
import type { TypicalTest } from "./typicalTest.ts";

/** What a plan is asked: at which risk, and with which charge in how many portions; null: as in the typical test. */
export interface PlanAsked {
  readonly riskPct: number;
  readonly chargeG: number | null;
  readonly portions: number | null;
}

export interface ProductPlan {
  readonly product: Product;
  readonly plan: Plan;
  /** How many portions of the charge the sieves take rests on this many load limits; or why there are none. */
  readonly loadLimits: Determination;
  /** The charge that the product's method allows; null where that side is open. */
  readonly allowedG: { readonly min: number | null; readonly max: number | null };
}

function loadsOn({ grading }: Graded, product: Product): { limits: SieveLoadLimit[]; told: Determination } {
  const { rule, frame } = resolveRules(product.method, product.method?.procedure).load;
  if (rule === null) return { limits: [], told: undetermined("the product names no rule for the load of a sieve") };
  const found = grading.rows
    .filter(({ apertureUm }) => apertureUm > 0)
    .map(({ apertureUm }) => ({ apertureUm, load: fairLoadG(rule, apertureUm, frame) }));
  const limits = found.flatMap(({ apertureUm, load }) => (load.determinable ? [{ apertureUm, maxG: load.value }] : []));
  const [missing] = found.flatMap(({ load }) => (load.determinable ? [] : [load.reason]));
  return { limits, told: limits.length > 0 ? determined(limits.length, "1") : undetermined(missing ?? "no sieve") };
}

const boundG = (bound: ChargeBound | null): number | null => (bound?.bound.determinable ? bound.bound.value : null);

/** The charge that the product's method allows, by its own bounds or those of its rule set. */
function allowedOf({ method }: Product): ProductPlan["allowedG"] {
  const { charge } = resolveRules(method, method?.procedure);
  return { min: boundG(leastCharge(charge)), max: boundG(mostCharge(charge)) };
}

/** Whether the charge in question is one that the method does not allow. */
export function chargeOutside({ plan, allowedG }: Pick<ProductPlan, "plan" | "allowedG">): "below" | "above" | null {
  const { min, max } = allowedG;
  if (min !== null && isBelow(plan.presentG, min)) return "below";
  return max !== null && isAbove(plan.presentG, max) ? "above" : null;
}

/** The same material, so many times as much of it. */
function timesAsMuch(graded: Graded, times: number, product: Product): Outcome<Graded> {
  const { rows, chargeG, washLossG } = graded.grading;
  const washedG = chargeG !== null && washLossG > 0 ? (chargeG - washLossG) * times : null;
  const fractions = rows.map(({ apertureUm, netG, meanUm }) => ({
    apertureUm,
    emptyG: null,
    fullG: null,
    netG: netG * times,
    ...(meanUm === undefined ? {} : { meanUm }),
  }));
  const masses = { fractions, chargeG: chargeG === null ? null : chargeG * times, washedG };
  return gradedAgain({ ...masses, panAssumed: graded.panAssumed ?? false }, product);
}

/**
 * What it takes to judge each limit of a product, from a typical test of it: `planFor` with the product's limits, its
 * conditions of uncertainty and the load limits of its procedure. A charge that is asked for is taken as that many times
 * the typical one, of the same curve.
 *
 * @returns the plan; lines say why a limit can't be planned for
 */
export function planOf(product: Product, typical: TypicalTest, asked: PlanAsked): Outcome<ProductPlan> {
  const { grading } = typical.graded;
  const presentG = grading.chargeG ?? grading.totalG;
  const times = asked.chargeG === null ? 1 : asked.chargeG / presentG;
  const scaled = times === 1 ? accepted(typical.graded) : timesAsMuch(typical.graded, times, product);
  if (!scaled.ok) return scaled;
  const loads = loadsOn(scaled.value, product);
  const portions = asked.portions ?? (asked.chargeG === null ? typical.portions : null);
  const allowedG = allowedOf(product);
  const basis = {
    limits: limitsOf(product).map((limit) => ({ ...limit, turns: turningEnds(limit, product.decision?.compare) })),
    typical: scaled.value,
    loads: loads.limits,
    ...(allowedG.min === null ? {} : { leastG: allowedG.min }),
    ...(portions === null ? {} : { portions }),
  };
  const plan = planFor(basis, conditionsOf(product, typical.known), asked.riskPct / 100);
  return accepted({ product, plan, loadLimits: loads.told, allowedG });
}
