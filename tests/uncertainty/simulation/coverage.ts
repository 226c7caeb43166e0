import { percentileUm } from "../../../src/grading/percentile.ts";
import { budgetOf } from "../../../src/uncertainty/budget.ts";
import type { Conditions } from "../../../src/uncertainty/conditions.ts";
import type { Graded } from "../../../src/uncertainty/graded.ts";
import type { Measurand } from "../../../src/uncertainty/measurand.ts";
import { monteCarloOf } from "../../../src/uncertainty/monteCarlo/monteCarlo.ts";
import { choices, numberOf, passing } from "../../grading/stack.ts";
import { type Random, seeded } from "./chance.ts";
import { type Lot, truePassing } from "./materials.ts";
import { conditionsOf, type Laboratory, oneTest } from "./process.ts";

/** How often one number's interval held the truth. */
export interface Covered {
  readonly name: string;
  readonly truth: number;
  readonly tests: number;
  readonly covered: number;
  /** Mean standard uncertainty, and standard deviation of what was found about the truth. */
  readonly meanU: number;
  readonly scatter: number;
}

/** One interval for each number asked, by one of the two ways; null where there is no number. */
export type Way = (
  graded: Graded,
  conditions: Conditions,
  asked: readonly Measurand[],
  random: Random,
) => ({ readonly value: number; readonly u: number; readonly low: number; readonly high: number } | null)[];

/** value +- 2 u, cut at 0 and 100 %. */
export const firstOrder: Way = (graded, conditions, asked) =>
  budgetOf(graded, conditions, asked).asked.map((sure) => {
    if (!sure.determinable) return null;
    const { value, u, interval } = sure;
    return { value, u, low: interval.low, high: interval.high };
  });

const FEW = 3000;

/** The interval of a few thousand draws. */
export const byDraws: Way = (graded, conditions, asked, random) =>
  monteCarloOf(graded, conditions, asked, random, { blockDraws: FEW, mostDraws: FEW }).results.map((drawn) => {
    if (!drawn.determinable) return null;
    const { mean, u, interval } = drawn;
    return { value: mean, u, low: interval.low, high: interval.high };
  });

const PERCENTILES = [10, 50, 90] as const;

/** What is asked with its true number: passing % of perfect sieves; percentiles of the log-linear curve through these. */
function truths(lot: Lot): { readonly on: Measurand; readonly name: string; readonly truth: number }[] {
  const share = (um: number) => 100 * truePassing(lot, um);
  const curve = passing(lot.sievesUm.map((um) => `${um}:${share(um)}`).join(" "));
  return [
    ...lot.sievesUm.map((um) => ({
      on: { kind: "passingPct" as const, apertureUm: um },
      name: `passing ${um} um`,
      truth: share(um),
    })),
    ...PERCENTILES.map((pct) => ({
      on: { kind: "percentileUm" as const, passingPct: pct },
      name: `d${pct}`,
      truth: numberOf(percentileUm(curve, pct, "log-linear")),
    })),
  ];
}

export interface Setting {
  readonly lot: Lot;
  readonly chargeG: number;
  readonly laboratory: Laboratory;
}

/** Runs so many tests of one charge of one lot and counts how often each interval holds the truth. */
export function coverageOf({ lot, chargeG, laboratory }: Setting, way: Way, tests: number, seed: number): Covered[] {
  const random = seeded(seed);
  const conditions = conditionsOf(lot, laboratory);
  const wanted = truths(lot);
  const asked = wanted.map(({ on }) => on);
  const counts = wanted.map(({ name, truth }) => ({ name, truth, tests: 0, covered: 0, meanU: 0, scatter: 0 }));
  for (let n = 0; n < tests; n++) {
    const grading = oneTest(lot, chargeG, laboratory, random);
    const found = way({ grading, choices: choices() }, conditions, asked, random);
    for (const [i, count] of counts.entries()) add(count, found[i] ?? null);
  }
  return counts.map((c) => ({ ...c, meanU: c.meanU / c.tests, scatter: Math.sqrt(c.scatter / c.tests) }));
}

type Count = { -readonly [K in keyof Covered]: Covered[K] };

function add(into: Count, found: ReturnType<Way>[number]): void {
  if (!found) return;
  into.tests += 1;
  into.covered += found.low <= into.truth && into.truth <= found.high ? 1 : 0;
  into.meanU += found.u;
  into.scatter += (found.value - into.truth) ** 2;
}

/** Numbers whose truth is neither all nor nothing: 0.5 to 99.5 % passing, and the percentiles. */
export const telling = (all: readonly Covered[]): Covered[] =>
  all.filter(({ name, truth }) => name.startsWith("d") || (truth >= 0.5 && truth <= 99.5));

/** Share of all telling intervals that hold the truth, in %. */
export function pooledPct(all: readonly Covered[]): number {
  const some = telling(all);
  const tests = some.reduce((sum, c) => sum + c.tests, 0);
  return (100 * some.reduce((sum, c) => sum + c.covered, 0)) / tests;
}
