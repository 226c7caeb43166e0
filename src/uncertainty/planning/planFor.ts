import { normalQuantile } from "../../grading/normal.ts";
import { budgetOf, type Sureness } from "../budget.ts";
import type { Conditions } from "../conditions.ts";
import { distanceTo, type LimitRange } from "../decision/decide.ts";
import { timesFor, uAt, varianceByCharge } from "../decision/scaling.ts";
import type { Graded } from "../graded.ts";
import { type Measurand, measurandName } from "../measurand.ts";
import { crossTestRule } from "./crossTest.ts";
import { type LargestPortion, largestPortion, portionsFor, type SieveLoadLimit } from "./portions.ts";

export interface PlannedLimit extends LimitRange {
  readonly on: Measurand;
}

/** What a plan is made from: the limits of a product and a typical test of it. */
export interface PlanBasis {
  readonly limits: readonly PlannedLimit[];
  /** A typical test: its curve and its present charge. */
  readonly typical: Graded;
  readonly loads?: readonly SieveLoadLimit[];
}

export interface CrossTest {
  readonly spreadPct: number;
  readonly tolerancePct: number;
  /** Width from lower to upper limit; null where one side is open. */
  readonly widthPct: number | null;
  readonly tooNarrow: boolean;
}

/** What judging one limit takes. */
export type PlanLine = { readonly on: Measurand; readonly name: string } & (
  | { readonly planned: false; readonly reason: string }
  | {
      readonly planned: true;
      readonly typical: number;
      readonly unit: string;
      /** Standard uncertainty with the present charge, and with any charge however large. */
      readonly u: number;
      readonly uFloor: number;
      /** What u must come down to so that a typical result is inside by its guard band. */
      readonly wantedU: number;
      readonly verdict: "decidable" | "larger charge" | "no charge is enough" | "too narrow" | "typical lies outside";
      /** The least charge that does, and in how many portions; null where none does. */
      readonly chargeG: number | null;
      readonly portions: number | null;
      /** Only for limits on percentages. */
      readonly crossTest: CrossTest | null;
    }
);

export interface Plan {
  readonly risk: number;
  /** Guard band in standard uncertainties: the one-sided normal quantile of the risk. */
  readonly z: number;
  readonly presentG: number;
  readonly largestPortion: LargestPortion | null;
  readonly lines: readonly PlanLine[];
  /** The charge that decides every limit that any charge decides, and its portions. */
  readonly chargeG: number;
  readonly portions: number;
}

type Sure = Sureness & { readonly determinable: true };

function crossTestOf(sure: Sure, { min, max }: LimitRange): CrossTest | null {
  if (sure.unit !== "%") return null;
  const rule = crossTestRule(sure.value);
  const widthPct = min === null || max === null ? null : max - min;
  return { ...rule, widthPct, tooNarrow: widthPct !== null && widthPct < rule.tolerancePct };
}

/** The best that any result can do: from the middle of the limit to its ends. */
const halfWidth = ({ min, max }: LimitRange): number =>
  min === null || max === null ? Number.POSITIVE_INFINITY : (max - min) / 2;

interface Setting {
  readonly basis: PlanBasis;
  readonly conditions: Conditions;
  readonly z: number;
  readonly presentG: number;
  readonly largest: LargestPortion | null;
}

type Verdict = Extract<PlanLine, { planned: true }>["verdict"];

/** Reasons why no charge decides a limit, the deepest first; null where one does. */
function hopeless(distance: number, tooNarrow: boolean, times: number | null): Verdict | null {
  if (tooNarrow) return "too narrow";
  if (distance <= 0) return "typical lies outside";
  return times === null ? "no charge is enough" : null;
}

function planned(sure: Sure, limit: PlannedLimit, { conditions, z, presentG, largest }: Setting): PlanLine {
  const { on, name, value: typical, unit, u } = sure;
  const variance = varianceByCharge(sure, presentG, conditions.sampling);
  const uFloor = uAt(variance, Number.POSITIVE_INFINITY);
  const { distance } = distanceTo(typical, limit);
  const wantedU = Math.max(0, distance) / z;
  const times = timesFor(variance, wantedU);
  const common = { on, name, planned: true as const, typical, unit, u, uFloor, wantedU };
  const crossTest = crossTestOf(sure, limit);
  const never = hopeless(distance, z * uFloor >= halfWidth(limit), times);
  if (never !== null) return { ...common, verdict: never, chargeG: null, portions: null, crossTest };
  const chargeG = (times ?? 0) * presentG;
  const verdict = chargeG <= presentG ? "decidable" : "larger charge";
  return { ...common, verdict, chargeG, portions: portionsFor(Math.max(chargeG, presentG), largest), crossTest };
}

function lineFor(limit: PlannedLimit, sure: Sureness | undefined, setting: Setting): PlanLine {
  if (sure?.determinable) return planned(sure, limit, setting);
  const reason = sure?.reason ?? "it was not asked";
  return { on: limit.on, name: measurandName(limit.on), planned: false, reason };
}

/**
 * What it takes to judge each limit of a product at a given risk: the least charge with which a typical result is
 * inside its limit by a guard band of `z u`, z the one-sided normal quantile of the risk, and the portions that the
 * load limits of the sieves then ask for. The variance is split into what does not depend on the charge (apertures,
 * loss, end point, sampling before the charge), what falls with it (grains) and what falls with its square (balance).
 *
 * A limit is "too narrow" for the method where even a result in its middle, of an endless charge, would lie within the
 * guard band; beside it stands the published rule of the European cross-test.
 *
 * @param basis the limits, a typical test with its present charge, the load limits
 * @param risk of a wrong acceptance, 0 to 0.5; 0.05 if nothing is said
 */
export function planFor(basis: PlanBasis, conditions: Conditions, risk = 0.05): Plan {
  const { typical, limits, loads = [] } = basis;
  const presentG = typical.grading.chargeG ?? typical.grading.totalG;
  const largest = largestPortion(typical, loads);
  const setting = { basis, conditions, z: normalQuantile(1 - risk), presentG, largest };
  const budget = budgetOf(
    typical,
    conditions,
    limits.map((limit) => limit.on),
  );
  const lines = limits.map((limit, i) => lineFor(limit, budget.asked[i], setting));
  const charges = lines.flatMap((line) => (line.planned && line.chargeG !== null ? [line.chargeG] : []));
  const chargeG = Math.max(presentG, ...charges);
  const { z } = setting;
  return { risk, z, presentG, largestPortion: largest, lines, chargeG, portions: portionsFor(chargeG, largest) };
}
