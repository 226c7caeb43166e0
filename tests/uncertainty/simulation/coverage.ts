import { percentileUm } from "../../../src/grading/percentile.ts";
import { budgetOf, type Sureness } from "../../../src/uncertainty/budget.ts";
import { choices, numberOf, passing } from "../../grading/stack.ts";
import { seeded } from "./chance.ts";
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

const PERCENTILES = [10, 50, 90] as const;

/** The true number: passing % of perfect sieves; percentiles of the log-linear curve through these. */
function truths(lot: Lot): Map<string, number> {
  const curve = passing(lot.sievesUm.map((um) => `${um}:${100 * truePassing(lot, um)}`).join(" "));
  const shares = lot.sievesUm.map((um) => [`passingPct@${um}`, 100 * truePassing(lot, um)] as const);
  const sizes = PERCENTILES.map(
    (pct) => [`percentileUm@${pct}`, numberOf(percentileUm(curve, pct, "log-linear"))] as const,
  );
  return new Map([...shares, ...sizes]);
}

/** Runs so many tests of one charge of one lot and counts how often each interval at k = 2 holds the truth. */
export function coverageOf(lot: Lot, chargeG: number, laboratory: Laboratory, tests: number, seed: number): Covered[] {
  const random = seeded(seed);
  const truth = truths(lot);
  const conditions = conditionsOf(lot, laboratory);
  const asked = PERCENTILES.map((passingPct) => ({ kind: "percentileUm" as const, passingPct }));
  const counts = [...truth].map(([name, value]) => ({
    name,
    truth: value,
    tests: 0,
    covered: 0,
    meanU: 0,
    scatter: 0,
  }));
  for (let n = 0; n < tests; n++) {
    const grading = oneTest(lot, chargeG, laboratory, random);
    const { passing: shares, asked: sizes } = budgetOf({ grading, choices: choices() }, conditions, asked);
    for (const [i, sure] of [...shares, ...sizes].entries()) count(counts[i], sure);
  }
  return counts.map((c) => ({ ...c, meanU: c.meanU / c.tests, scatter: Math.sqrt(c.scatter / c.tests) }));
}

function count(
  into: { truth: number; tests: number; covered: number; meanU: number; scatter: number } | undefined,
  sure: Sureness,
) {
  if (!into || !sure.determinable) return;
  const { low, high } = sure.interval;
  into.tests += 1;
  into.covered += low <= into.truth && into.truth <= high ? 1 : 0;
  into.meanU += sure.u;
  into.scatter += (sure.value - into.truth) ** 2;
}
