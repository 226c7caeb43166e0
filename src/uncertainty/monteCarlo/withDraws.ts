import type { Budget, Sureness } from "../budget.ts";
import type { Conditions } from "../conditions.ts";
import type { Graded } from "../graded.ts";
import { COVERAGE_FACTOR } from "../interval.ts";
import type { Measurand } from "../measurand.ts";
import type { Random } from "./chance.ts";
import { type Comparison, compareWays } from "./compareWays.ts";
import { type DrawingOptions, type Drawn, monteCarloOf } from "./monteCarlo.ts";

/** A budget of which some numbers may be of draws, and how the two ways compared. */
export interface BudgetByDraws {
  readonly budget: Budget;
  readonly draws: number;
  /** Whether the draws stood still before the most draws were reached. */
  readonly settled: boolean;
  readonly comparisons: readonly Comparison[];
}

type Sure = Sureness & { readonly determinable: true };
type Determined = Drawn & { readonly determinable: true };

const ofDraws = (sure: Sure, { u, interval }: Determined): Sure => ({
  ...sure,
  u,
  U: COVERAGE_FACTOR * u,
  interval,
  by: "monte carlo",
});

/**
 * A budget checked by drawing. Where both ways agree within the numerical tolerance the first order stays; where not, u
 * and the interval of that number are those of the draws, and it says so. Its components stay those of first order.
 *
 * @param asked what is drawn; numbers of the budget that are not asked stay as they are and are not compared
 * @source JCGM 101:2008 clause 8 (memory)
 */
export function withDraws(
  graded: Graded,
  conditions: Conditions,
  budget: Budget,
  asked: readonly Measurand[],
  random: Random,
  options: DrawingOptions = {},
): BudgetByDraws {
  const { draws, settled, results } = monteCarloOf(graded, conditions, asked, random, options);
  const byName = new Map(results.map((drawn) => [drawn.name, drawn]));
  const comparisons: Comparison[] = [];
  const used = (sure: Sureness): Sureness => {
    const drawn = byName.get(sure.name);
    const comparison = drawn ? compareWays(sure, drawn) : null;
    if (!comparison || !drawn?.determinable || !sure.determinable) return sure;
    if (!comparisons.some(({ name }) => name === sure.name)) comparisons.push(comparison);
    return comparison.agree ? sure : ofDraws(sure, drawn);
  };
  const checked = { ...budget, passing: budget.passing.map(used), asked: budget.asked.map(used) };
  return { budget: checked, draws, settled, comparisons };
}
