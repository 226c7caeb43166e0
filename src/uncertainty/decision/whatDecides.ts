import type { Budget, Contribution, Sureness } from "../budget.ts";
import type { ComponentId, SamplingConditions } from "../conditions.ts";
import type { Measurand } from "../measurand.ts";
import { type Decided, distanceTo, type Guard, guardWidth, type LimitRange } from "./decide.ts";
import { rarerGrains } from "./fewGrains.ts";
import { timesFor, varianceByCharge } from "./scaling.ts";

/** One limit with how sure its number is and what was decided. */
export interface DecidedLimit {
  readonly sure: Sureness & { readonly determinable: true };
  readonly limit: LimitRange;
  readonly decided: Decided;
  /** The guard band of this limit, where it has another than the situation's. */
  readonly guard?: Guard;
}

/** What would make a limit decidable, as figures; the words are the screen's. */
export type Help =
  | { readonly kind: "charge"; readonly fromG: number; readonly toG: number }
  | { readonly kind: "no charge is enough"; readonly u: number; readonly wantedU: number }
  | {
      readonly kind: "grains";
      readonly apertureUm: number;
      readonly side: "coarser" | "finer";
      readonly grains: number;
      readonly needed: number;
    }
  | { readonly kind: "balance"; readonly component: ComponentId }
  | { readonly kind: "certificates" }
  | { readonly kind: "close the loss" }
  | { readonly kind: "sample larger" }
  | { readonly kind: "sieve longer" };

export interface WhatDecides {
  readonly on: Measurand;
  readonly name: string;
  readonly value: number;
  readonly side: "min" | "max";
  /** The limit on that side. */
  readonly limit: number;
  readonly result: Decided["result"];
  /** Distance to the limit itself, to the end of the acceptance interval, and that in standard uncertainties. */
  readonly toLimit: number;
  readonly distance: number;
  readonly inU: number;
  readonly largest: {
    readonly id: ComponentId;
    readonly label: string;
    readonly u: number;
    readonly shareOfVariance: number;
  } | null;
  /** Empty where the limit is already decided beyond its guard band. */
  readonly helps: readonly Help[];
}

/** Distance in standard uncertainties; without any uncertainty as far as numbers go. */
function inU({ sure, decided: { distance } }: DecidedLimit): number {
  if (distance === 0) return 0;
  return Math.max(-Number.MAX_VALUE, Math.min(Number.MAX_VALUE, distance / sure.u));
}

/** The largest component of a budget with its part of the variance, 0 to 1; null where nothing is included. */
export function largestComponent(sure: Sureness & { readonly determinable: true }): WhatDecides["largest"] {
  const included = sure.components.filter((part): part is Contribution & { included: true } => part.included);
  const [largest] = included.toSorted((a, b) => b.u - a.u);
  if (!largest || largest.u === 0) return null;
  return { id: largest.id, label: largest.label, u: largest.u, shareOfVariance: (largest.u / sure.u) ** 2 };
}

const REMEDY: Readonly<Record<Exclude<ComponentId, "grains">, Help>> = {
  readability: { kind: "balance", component: "readability" },
  repeatability: { kind: "balance", component: "repeatability" },
  linearity: { kind: "balance", component: "linearity" },
  drift: { kind: "balance", component: "drift" },
  loss: { kind: "close the loss" },
  apertures: { kind: "certificates" },
  sampling: { kind: "sample larger" },
  endPoint: { kind: "sieve longer" },
};

/** Grains on the rarer side of a sieve, and how many would do; null for a number that is at no sieve. */
function grainHelp(on: Measurand, budget: Budget, times: number): Help | null {
  const rare = "apertureUm" in on ? rarerGrains(budget, on.apertureUm) : null;
  if (!rare || !("apertureUm" in on)) return null;
  return { kind: "grains", apertureUm: on.apertureUm, ...rare, needed: rare.grains * times };
}

/** What the judged limits stand in: the budget, the present charge, the guard band, how the charge was sampled. */
export interface Situation {
  readonly budget: Budget;
  readonly chargeG: number;
  readonly guard: Guard;
  readonly sampling?: SamplingConditions;
}

function chargeHelps({ sure, limit, guard: own }: DecidedLimit, situation: Situation): Help[] {
  const { chargeG, sampling } = situation;
  const guard = own ?? situation.guard;
  const wantedU = Math.abs(distanceTo(sure.value, limit).distance) / guardWidth(guard, 1);
  const variance = varianceByCharge(sure, chargeG, sampling);
  const times = timesFor(variance, wantedU);
  if (times === null) return [{ kind: "no charge is enough", u: Math.sqrt(Math.max(0, variance.fixed)), wantedU }];
  const grains = largestComponent(sure)?.id === "grains" ? grainHelp(sure.on, situation.budget, times) : null;
  return [{ kind: "charge", fromG: chargeG, toG: chargeG * times }, ...(grains ? [grains] : [])];
}

function helpsFor(limit: DecidedLimit, situation: Situation): Help[] {
  if (limit.decided.result !== "borderline") return [];
  const largest = largestComponent(limit.sure);
  if (!largest) return [];
  const remedy = largest.id === "grains" ? [] : [REMEDY[largest.id]];
  return [...chargeHelps(limit, situation), ...remedy];
}

/**
 * The limit that decides: of all judged limits the one whose result lies nearest to (or furthest beyond) the end of its
 * acceptance interval, counted in its own standard uncertainty. With it the largest component of its budget and, where
 * it is borderline, what would make it decidable.
 *
 * @param situation the budget, the present charge in g, the guard band and how the charge was sampled
 * @returns null without limits
 */
export function whatDecides(limits: readonly DecidedLimit[], situation: Situation): WhatDecides | null {
  const [nearest] = limits.toSorted((a, b) => inU(a) - inU(b));
  if (!nearest) return null;
  const { sure, limit, decided } = nearest;
  const { distance: toLimit, side } = distanceTo(sure.value, limit);
  return {
    on: sure.on,
    name: sure.name,
    value: sure.value,
    side,
    limit: limit[side] ?? 0,
    result: decided.result,
    toLimit,
    distance: decided.distance,
    inU: inU(nearest),
    largest: largestComponent(sure),
    helps: helpsFor(nearest, situation),
  };
}
