import { type ChartConstants, chartConstants } from "./constants/chartConstants.ts";
import { deviationOf } from "./summary.ts";

/**
 * What is plotted and what its scatter is taken from. Where portions of one test agree far better than one test with
 * the next, limits from within tests alarm without end: then a chart of individuals, of the means, is the right one.
 */
export const CHART_KINDS = ["individuals", "mean-and-range", "mean-and-deviation"] as const;
export type ChartKind = (typeof CHART_KINDS)[number];

/** How one kind of chart measures scatter. */
export interface SpreadRule {
  /** Its name in words. */
  readonly words: string;
  /** Mean spread of normal values with standard deviation 1. */
  readonly unbias: (constants: ChartConstants) => number;
  /** Lower and upper limit, as multiples of the mean spread. */
  readonly factors: (constants: ChartConstants) => readonly [number, number];
  /** Spread of one test: of its portions, or against the test before. */
  readonly spreadOf: (portions: readonly number[], before: number | null) => number | null;
}

const rangeOf = (portions: readonly number[]): number => Math.max(...portions) - Math.min(...portions);

export const SPREAD_RULES: Readonly<Record<ChartKind, SpreadRule>> = {
  individuals: {
    words: "moving range",
    unbias: ({ d2 }) => d2,
    factors: ({ D3, D4 }) => [D3, D4],
    spreadOf: ([value], before) => (before === null || value === undefined ? null : Math.abs(value - before)),
  },
  "mean-and-range": {
    words: "range",
    unbias: ({ d2 }) => d2,
    factors: ({ D3, D4 }) => [D3, D4],
    spreadOf: rangeOf,
  },
  "mean-and-deviation": {
    words: "standard deviation",
    unbias: ({ c4 }) => c4,
    factors: ({ B3, B4 }) => [B3, B4],
    spreadOf: deviationOf,
  },
};

/** The constants that a kind of chart uses: moving ranges are of two tests, the others of a test's portions. */
export const constantsFor = (kind: ChartKind, replicates: number): ChartConstants =>
  chartConstants(kind === "individuals" ? 2 : replicates);
