import { normalCdf } from "../../grading/normal.ts";
import { COVERAGE_FACTOR } from "../interval.ts";
import type { Bounds } from "../measurand.ts";
import { smallest } from "./smallest.ts";

/** Share of a normal distribution within k = 2, which every interval is to hold: 0.9545. */
export const COVERAGE = 1 - 2 * normalCdf(-COVERAGE_FACTOR);

/** What one block of draws says of one number. */
export interface BlockFigures {
  readonly mean: number;
  readonly u: number;
  readonly low: number;
  readonly high: number;
  /** Draws without a number. */
  readonly lost: number;
}

function meanAndSd(drawn: Float64Array): { mean: number; sd: number } {
  let sum = 0;
  for (let i = 0; i < drawn.length; i++) sum += drawn[i] ?? 0;
  const mean = sum / drawn.length;
  let squares = 0;
  for (let i = 0; i < drawn.length; i++) {
    const off = (drawn[i] ?? 0) - mean;
    squares += off * off;
  }
  return { mean, sd: Math.sqrt(squares / Math.max(1, drawn.length - 1)) };
}

/** The narrowest stretch of draws that holds the wanted share. */
function shortest(drawn: Float64Array): { low: number; high: number } {
  const sorted = drawn.sort();
  const held = Math.min(sorted.length - 1, Math.round(COVERAGE * sorted.length));
  let [best, width] = [0, Number.POSITIVE_INFINITY];
  for (let i = 0; i + held < sorted.length; i++) {
    const here = (sorted[i + held] ?? 0) - (sorted[i] ?? 0);
    if (here < width) [best, width] = [i, here];
  }
  return { low: sorted[best] ?? 0, high: sorted[best + held] ?? 0 };
}

/** The stretch that leaves out the same share on either side. */
function symmetric(drawn: Float64Array): { low: number; high: number } {
  const beyond = Math.round(((1 - COVERAGE) / 2) * drawn.length);
  return { low: smallest(drawn, beyond), high: smallest(drawn, drawn.length - 1 - beyond) };
}

/**
 * Mean, standard uncertainty and coverage interval of one block: the probabilistically symmetric interval, or, where
 * `mean +- 2 u` reaches beyond what the quantity can be, the shortest one, which ends where the quantity ends.
 *
 * @param drawn the numbers of the block, at least one; their order is lost
 * @source JCGM 101:2008 clauses 7.6, 7.7 and 5.3.4 (memory)
 */
export function blockFigures(drawn: Float64Array, lost: number, { low, high }: Bounds): BlockFigures {
  const { mean, sd } = meanAndSd(drawn);
  const [from, to] = [mean - COVERAGE_FACTOR * sd, mean + COVERAGE_FACTOR * sd];
  const cut = (low !== null && from < low) || (high !== null && to > high);
  return { mean, u: sd, ...(cut ? shortest(drawn) : symmetric(drawn)), lost };
}
