import { PERCENTILES } from "../grading/percentile.ts";
import { VALUE_IDS } from "../record/valueIds.ts";
import { bendU } from "./bend.ts";
import type { Component } from "./components/component.ts";
import { componentsOf, massUncertainties } from "./components/components.ts";
import type { ComponentId, Conditions } from "./conditions.ts";
import { type Graded, massCount } from "./graded.ts";
import { grainsOf, type RowGrains } from "./grainCount.ts";
import { COVERAGE_FACTOR, coverageInterval, type Interval } from "./interval.ts";
import { boundsOf, type Measurand, measurandName } from "./measurand.ts";
import { combined } from "./propagation.ts";
import { type Sensitive, sensitivities } from "./sensitivity.ts";

/** What one component brings to one number, in the number's unit; or why it brings nothing. */
export type Contribution = { readonly id: ComponentId; readonly label: string } & (
  | { readonly included: true; readonly u: number }
  | { readonly included: false; readonly reason: string }
);

/** How sure one number is. */
export type Sureness = { readonly on: Measurand; readonly name: string } & (
  | {
      readonly determinable: true;
      readonly value: number;
      readonly unit: string;
      /** Standard uncertainty, and expanded with k = 2. */
      readonly u: number;
      readonly U: number;
      readonly k: number;
      readonly interval: Interval;
      /** Of first order, also where u and the interval are of draws. */
      readonly components: readonly Contribution[];
      /** Where draws took the place of first-order propagation. */
      readonly by?: "monte carlo";
    }
  | { readonly determinable: false; readonly reason: string }
);

/** Standard uncertainty of some components of a number together; null where none of them is included. */
export function togetherU(components: readonly Contribution[], ids: readonly ComponentId[]): number | null {
  const parts = components.flatMap((part) => (part.included && ids.includes(part.id) ? [part.u] : []));
  return parts.length === 0 ? null : Math.hypot(...parts);
}

/** A source of uncertainty and what was taken for it; or why it is not included. */
export type Included = { readonly id: ComponentId; readonly label: string } & (
  | { readonly included: true; readonly told: string }
  | { readonly included: false; readonly reason: string }
);

export interface Budget {
  readonly components: readonly Included[];
  /** Passing % at every sieve, coarsest first. */
  readonly passing: readonly Sureness[];
  /** What else was asked, in the order asked. */
  readonly asked: readonly Sureness[];
  /** Grains in each row, coarsest first and the pan last; null without a particle density. */
  readonly grains: readonly RowGrains[] | null;
}

/** The usual percentiles and every characteristic value. */
export const EVERYTHING: readonly Measurand[] = [
  ...PERCENTILES.map((pct) => ({ kind: "percentileUm" as const, passingPct: Number(pct) })),
  ...VALUE_IDS.map((id) => ({ kind: "value" as const, id })),
];

/** Of the apertures also how the curve may bend between them, which no mass tells of. */
function contribution(component: Component, { on, perG }: Sensitive, graded: Graded): Contribution {
  const { id, label } = component;
  if (!component.included) return { id, label, included: false, reason: component.reason };
  const u = combined(component.causes, perG);
  return { id, label, included: true, u: id === "apertures" ? Math.hypot(u, bendU(on, graded)) : u };
}

function surenessOf(of: Sensitive, components: readonly Component[], graded: Graded): Sureness {
  const { on, found } = of;
  const name = measurandName(on);
  if (!found.determinable) return { on, name, determinable: false, reason: found.reason };
  const { value, unit } = found;
  const parts = components.map((component) => contribution(component, of, graded));
  const u = Math.hypot(...parts.map((part) => (part.included ? part.u : 0)));
  const interval = coverageInterval(value, u, boundsOf(unit));
  return {
    on,
    name,
    determinable: true,
    value,
    unit,
    u,
    U: COVERAGE_FACTOR * u,
    k: COVERAGE_FACTOR,
    interval,
    components: parts,
  };
}

const told = (component: Component): Included =>
  component.included
    ? { id: component.id, label: component.label, included: true, told: component.told }
    : { id: component.id, label: component.label, included: false, reason: component.reason };

/**
 * How sure the passing % at every sieve is, and everything else that is asked, by first-order propagation: the masses
 * of the test with their full covariance matrix, component by component, through closed forms or through numerical
 * derivatives of the grading's own functions. Plain values, fit for JSON.
 *
 * @param asked further numbers; without it the usual percentiles and all characteristic values
 * @returns for each number u, U = 2 u, its interval and the budget by component; what is not included says why
 * @source JCGM 100:2008 clause 5 (memory)
 */
export function budgetOf(graded: Graded, conditions: Conditions, asked: readonly Measurand[] = EVERYTHING): Budget {
  const components = componentsOf(graded, conditions);
  const sieves = graded.grading.rows.filter((row) => row.apertureUm > 0);
  const passing = sieves.map(({ apertureUm }) => ({ kind: "passingPct" as const, apertureUm }));
  const uG = massUncertainties(components, massCount(graded));
  const all = sensitivities(graded, uG, [...passing, ...asked]).map((each) => surenessOf(each, components, graded));
  return {
    components: components.map(told),
    passing: all.slice(0, passing.length),
    asked: all.slice(passing.length),
    grains: grainsOf(graded, conditions.material),
  };
}
