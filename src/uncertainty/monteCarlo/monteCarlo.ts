import type { Component } from "../components/component.ts";
import { componentsOf } from "../components/components.ts";
import type { Conditions } from "../conditions.ts";
import { type Graded, massCount } from "../graded.ts";
import { COVERAGE_FACTOR, type Interval } from "../interval.ts";
import { boundsOf, type Measurand, measurandName, measured } from "../measurand.ts";
import { type Bent, bent } from "./bent.ts";
import { drawBlock, isSettled, overBlocks, type Source, type Tally } from "./blocks.ts";
import { type Chance, chanceOf, type Random } from "./chance.ts";
import { drawCurve } from "./drawCurve.ts";
import { drawMasses } from "./drawMasses.ts";
import { gradingOnDemand, readerOf } from "./readers.ts";

export interface DrawingOptions {
  /** Draws in one block; 10 000 if nothing is said. */
  readonly blockDraws?: number;
  /** No more draws than these, settled or not; 200 000 if nothing is said. */
  readonly mostDraws?: number;
  /** Significant digits of u that the draws must settle; 1 if nothing is said. */
  readonly digits?: number;
}

/** How sure one number is by Monte Carlo. */
export type Drawn = { readonly on: Measurand; readonly name: string } & (
  | {
      readonly determinable: true;
      readonly mean: number;
      readonly u: number;
      /** Holds 95.45 % of the draws. */
      readonly interval: Interval;
      /** Whether mean, u and both ends stand still within a fifth of the numerical tolerance. */
      readonly settled: boolean;
      /** Share of the draws in which there was no such number (a percentile beyond the sieves); left out of the rest. */
      readonly lostShare: number;
    }
  | { readonly determinable: false; readonly reason: string }
);

export interface MonteCarlo {
  readonly draws: number;
  readonly settled: boolean;
  readonly results: readonly Drawn[];
}

const [BLOCK, MOST, DIGITS] = [10_000, 200_000, 1];

function sourceOf(graded: Graded, components: readonly Component[], chance: Chance): Source {
  const masses = new Float64Array(massCount(graded));
  const disturb = drawMasses(graded, components, chance);
  const curve = drawCurve(graded, components, chance);
  return {
    next: () => {
      disturb(masses);
      return curve(masses);
    },
    grading: (drawn) => gradingOnDemand(graded, drawn),
  };
}

function tallyOf(on: Measurand, graded: Graded, blockDraws: number, bend: Bent): Tally | string {
  const now = measured(on, graded.grading, graded);
  if (!now.determinable) return now.reason;
  return {
    on,
    unit: now.unit,
    read: bend(on, now.unit, readerOf(on, graded)),
    drawn: new Float64Array(blockDraws),
    blocks: [],
  };
}

function resultOf(tally: Tally, draws: number, settled: boolean): Drawn {
  const { on, unit, blocks } = tally;
  const name = measurandName(on);
  if (blocks.length === 0) return { on, name, determinable: false, reason: "no draw has this number" };
  const can = boundsOf(unit);
  const [mean, u] = [overBlocks(tally, "mean"), overBlocks(tally, "u")];
  const reach = COVERAGE_FACTOR * u;
  const cut = (can.low !== null && mean - reach < can.low) || (can.high !== null && mean + reach > can.high);
  const interval = { low: overBlocks(tally, "low"), high: overBlocks(tally, "high"), cut };
  const lostShare = blocks.reduce((sum, { lost }) => sum + lost, 0) / draws;
  return { on, name, determinable: true, mean, u, interval, settled, lostShare };
}

/**
 * How sure each number is by drawing: masses, apertures and grains each from its own distribution, the curve and the
 * numbers anew from every draw. Blocks of draws follow each other until mean, u and both ends of the interval of every
 * number stand still within a fifth of the numerical tolerance, or the most draws are reached, which is told. Figures
 * are means over the blocks.
 *
 * @param random seeded even numbers from 0 up to 1, brought by the caller
 * @source JCGM 101:2008 clauses 7.2 to 7.9 (memory); 7.9.4 for the adaptive number of draws
 */
export function monteCarloOf(
  graded: Graded,
  conditions: Conditions,
  asked: readonly Measurand[],
  random: Random,
  options: DrawingOptions = {},
): MonteCarlo {
  const { blockDraws = BLOCK, mostDraws = MOST, digits = DIGITS } = options;
  const components = componentsOf(graded, conditions);
  const chance = chanceOf(random);
  const source = sourceOf(graded, components, chance);
  const bend = bent(graded, components, chance);
  const each = asked.map((on) => tallyOf(on, graded, blockDraws, bend));
  const tallies = each.filter((tally) => typeof tally !== "string");
  let draws = 0;
  let settled = tallies.length === 0;
  while (!settled && draws < mostDraws) {
    drawBlock(tallies, blockDraws, source);
    draws += blockDraws;
    settled = tallies.every((tally) => isSettled(tally, digits));
  }
  const results = asked.map((on, i): Drawn => {
    const tally = each[i] ?? "";
    if (typeof tally !== "string") return resultOf(tally, draws, isSettled(tally, digits));
    return { on, name: measurandName(on), determinable: false, reason: tally };
  });
  return { draws, settled, results };
}
