import type { Sureness } from "../budget.ts";
import type { ComponentId } from "../conditions.ts";
import { chiSquareCdf, chiSquareQuantile, fisherCdf, fisherQuantile } from "../distributions/quantiles.ts";
import { type GrubbsTest, grubbs } from "./grubbs.ts";
import { type GrubbsPair, grubbsPair } from "./grubbsPair.ts";
import { summaryOf } from "./summary.ts";

/** Two results of one operator differ by more than `r = 2.8 s_r` once in twenty pairs. */
export const REPEATABILITY_LIMIT = 2.8;

/** The stated uncertainty that repeated tests are held against. */
export interface StatedScatter {
  /** Standard uncertainty of what can differ between the repeated tests. */
  readonly u: number;
  /** Degrees of freedom that u itself rests on; without it u counts as exact. */
  readonly degrees?: number;
}

export interface Honesty {
  readonly u: number;
  readonly test: "chi-square" | "F";
  /** `(n - 1) s^2 / u^2`, or `s^2 / u^2` for an F test. */
  readonly statistic: number;
  /** Between these the scatter is what was stated, 19 times in 20. */
  readonly low: number;
  readonly high: number;
  /** The true scatter over u: between these with 95 % confidence. */
  readonly ratioLow: number;
  readonly ratioHigh: number;
  /** Chance of a statistic at least as far out on its own side, doubled. */
  readonly pValue: number;
  readonly verdict: "agrees" | "scatters more than stated" | "scatters less than stated";
}

export interface Replicates {
  readonly count: number;
  readonly mean: number;
  /** Repeatability standard deviation and limit; null of a single result. */
  readonly sr: number | null;
  readonly r: number | null;
  readonly grubbs: GrubbsTest | null;
  /** Asked only where no single result is an outlier; null as well where it can't be tested. */
  readonly grubbsPair: GrubbsPair | null;
  /** Null without a stated uncertainty or with a single result. */
  readonly honesty: Honesty | null;
}

/** What differs when the same sample is split and sieved again with the same sieves and balance. */
export const REPEATED: readonly ComponentId[] = [
  "readability",
  "repeatability",
  "linearity",
  "drift",
  "loss",
  "grains",
];

/**
 * The part of a result's uncertainty that repeating the test shows: balance, loss and grains. Apertures, what was
 * sampled before the split and how far sieving comes stay the same from one repeat to the next.
 */
export const repeatablePart = (sure: Sureness & { readonly determinable: true }): number =>
  Math.hypot(...sure.components.map((part) => (part.included && REPEATED.includes(part.id) ? part.u : 0)));

function word(statistic: number, low: number, high: number): Honesty["verdict"] {
  if (statistic > high) return "scatters more than stated";
  return statistic < low ? "scatters less than stated" : "agrees";
}

function honestyOf(sd: number, free: number, { u, degrees }: StatedScatter): Honesty {
  const test = degrees === undefined ? ("chi-square" as const) : ("F" as const);
  const statistic = degrees === undefined ? (free * sd ** 2) / u ** 2 : sd ** 2 / u ** 2;
  const quantile = (p: number) =>
    degrees === undefined ? chiSquareQuantile(p, free) : fisherQuantile(p, free, degrees);
  const below = degrees === undefined ? chiSquareCdf(statistic, free) : fisherCdf(statistic, free, degrees);
  const [low, high] = [quantile(0.025), quantile(0.975)];
  const pValue = 2 * Math.min(below, 1 - below);
  const [ratioLow, ratioHigh] = [Math.sqrt(statistic / high), Math.sqrt(statistic / low)];
  return { u, test, statistic, low, high, ratioLow, ratioHigh, pValue, verdict: word(statistic, low, high) };
}

/**
 * Repeated tests of one sample: mean, repeatability standard deviation s_r and limit `r = 2.8 s_r`, Grubbs' test for
 * an outlier (where there is none, for a pair), and whether the scatter is what the budget states, by a two-sided
 * chi-square test at 5 % (F test where the stated uncertainty has degrees of freedom of its own). Nothing is left out of
 * the figures: an outlier is named, never dropped.
 *
 * @param results at least one
 * @source ISO 5725-2 and ISO 5725-6 (memory); the tests are those of any textbook of statistics
 */
export function replicates(results: readonly number[], stated?: StatedScatter): Replicates {
  const { count, mean, sd } = summaryOf(results);
  const single = grubbs(results);
  const testable = sd !== null && stated !== undefined && stated.u > 0;
  return {
    count,
    mean,
    sr: sd,
    r: sd === null ? null : REPEATABILITY_LIMIT * sd,
    grubbs: single,
    grubbsPair: single?.word === "outlier" ? null : grubbsPair(results),
    honesty: testable ? honestyOf(sd, count - 1, stated) : null,
  };
}
