import { chanceBetween } from "../interval.ts";
import type { Bounds } from "../measurand.ts";
import type { LimitRange } from "./limitRange.ts";
import { realEnds } from "./realEnds.ts";

export type { LimitRange } from "./limitRange.ts";

/** What is compared with a limit. */
export interface Measured {
  readonly value: number;
  /** Standard uncertainty in the same unit. */
  readonly u: number;
  /** What the quantity can be at all. */
  readonly can?: Bounds;
}

/** Width of a guard band: `w = z u`, or `g = r U` with U = 2 u. */
export type Guard = { readonly z: number } | { readonly r: number };

/** One-sided 95 %: the chance of a wrong acceptance is at most 5 % where one side matters (CP-18). */
export const DEFAULT_GUARD: Guard = { z: 1.645 };

/**
 * How a result is turned into a decision. `guarded acceptance` accepts only what is inside by more than the guard
 * band, `guarded rejection` rejects only what is outside by more, `guarded both` does both.
 */
export interface DecisionRule {
  readonly kind: "simple" | "guarded acceptance" | "guarded rejection" | "guarded both";
  readonly guard?: Guard;
  /** The one end of a limit with two ends that has a guard band; without it both have one. One end alone always has. */
  readonly side?: "min" | "max";
}

export interface Decided {
  readonly result: "within" | "borderline" | "below" | "above";
  /** Whether the rule accepts; of a two-way rule a borderline result is not accepted by a guarded acceptance. */
  readonly accepted: boolean;
  /** Width of the guard band, in the unit of the value; 0 under simple acceptance. */
  readonly guard: number;
  /** Where a result must lie to be within; crossed over (low above high) if the guard bands meet. */
  readonly acceptance: { readonly low: number | null; readonly high: number | null };
  /** The two guard bands leave nothing in between: no result could be accepted. */
  readonly bandsMeet: boolean;
  /** From the value to the nearest end of the acceptance interval: positive inside, negative outside. */
  readonly distance: number;
  readonly side: "min" | "max";
  /** The chance that the true value meets the limit. */
  readonly conformity: number;
  /** If accepted: the chance that it should not have been. If rejected: that it should have been. Else null. */
  readonly consumerRisk: number | null;
  readonly producerRisk: number | null;
}

/**
 * Width of the guard band in the unit of u.
 *
 * @source JCGM 106:2012 clause 8.3 (memory): g = r U; conventions CP-18 for w = 1.645 u
 * @example
 * guardWidth({ r: 1 }, 0.25) // => 0.5
 */
export const guardWidth = (guard: Guard, u: number): number => ("z" in guard ? guard.z * u : guard.r * 2 * u);

const inwards = (rule: DecisionRule): boolean => rule.kind === "guarded acceptance" || rule.kind === "guarded both";
const outwards = (rule: DecisionRule): boolean => rule.kind === "guarded rejection" || rule.kind === "guarded both";

/** The limit with its guarded ends moved inwards. */
function moved({ min, max }: LimitRange, by: number, side: DecisionRule["side"]): LimitRange {
  if (min === null || max === null) return { min: min === null ? null : min + by, max: max === null ? null : max - by };
  return { min: side === "max" ? min : min + by, max: side === "min" ? max : max - by };
}

function place(value: number, { min, max }: LimitRange): "within" | "below" | "above" {
  if (min !== null && value < min) return "below";
  return max !== null && value > max ? "above" : "within";
}

/** Distance to the nearest end of a range, positive inside, and which end that is; an open side is endlessly far. */
export function distanceTo(value: number, { min, max }: LimitRange): { distance: number; side: "min" | "max" } {
  const toMin = min === null ? Number.POSITIVE_INFINITY : value - min;
  const toMax = max === null ? Number.POSITIVE_INFINITY : max - value;
  return toMin < toMax ? { distance: toMin, side: "min" } : { distance: toMax, side: "max" };
}

interface Ranges {
  readonly limit: LimitRange;
  readonly acceptance: LimitRange;
  readonly rejection: LimitRange;
}

/** A guard band belongs to an end that something can lie beyond, and to no other. */
function rangesOf(stated: LimitRange, can: Bounds | undefined, rule: DecisionRule, w: number): Ranges {
  const limit = can ? realEnds(stated, can) : stated;
  const acceptance = inwards(rule) ? moved(limit, w, rule.side) : limit;
  return { limit, acceptance, rejection: outwards(rule) ? moved(limit, -w, rule.side) : limit };
}

function resultOf(value: number, { acceptance, rejection }: Ranges): Decided["result"] {
  const outside = place(value, rejection);
  if (outside !== "within") return outside;
  return place(value, acceptance) === "within" ? "within" : "borderline";
}

/**
 * One result against one limit under a decision rule of JCGM 106. A value on an end of the acceptance interval is
 * within. With both sides limited, each side has its own guard band, or the one side that the rule names.
 *
 * - simple: within or outside, borderline never;
 * - guarded acceptance: inside by at least the guard band is within, less is borderline, beyond the limit outside;
 * - guarded rejection: inside is within, beyond the limit by no more than the band borderline, further outside;
 * - guarded both: borderline on both sides of the limit.
 *
 * @returns the decision with the chance of conformity and the specific risk of what was decided
 * @source JCGM 106:2012 clauses 7 and 8 (memory); conventions CP-18
 */
export function decide(measured: Measured, limit: LimitRange, rule: DecisionRule): Decided {
  const { value, u, can } = measured;
  const guard = rule.kind === "simple" ? 0 : guardWidth(rule.guard ?? DEFAULT_GUARD, u);
  const ranges = rangesOf(limit, can, rule, guard);
  const { min: low, max: high } = ranges.acceptance;
  const result = resultOf(value, ranges);
  const accepted = result === "within" || (result === "borderline" && rule.kind === "guarded rejection");
  const conformity = chanceBetween(value, u, limit.min, limit.max, can);
  const rejected = result === "below" || result === "above";
  return {
    result,
    accepted,
    guard,
    acceptance: { low, high },
    bandsMeet: low !== null && high !== null && low > high,
    ...distanceTo(value, ranges.acceptance),
    conformity,
    consumerRisk: accepted ? 1 - conformity : null,
    producerRisk: rejected ? conformity : null,
  };
}
