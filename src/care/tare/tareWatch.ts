import type { CommonFinding, TareFinding } from "./finding.ts";
import type { TareChoice, TareHistory } from "./history.ts";
import { commonMove, commonOf, expectedG, roundsOf } from "./together.ts";
import { watchOne } from "./watchOne.ts";

export interface TareWatch {
  /** What moved all sieves together, if anything did. */
  readonly together: CommonFinding | null;
  /** In the order of the histories. */
  readonly sieves: readonly TareFinding[];
}

/** The histories without what the balance did to all of them in each test. */
function withoutBalance(histories: readonly TareHistory[], choice: TareChoice, { since, course }: CommonFinding) {
  const from = Date.parse(since);
  const common = new Map(
    roundsOf(histories, choice).map(({ round, offs }) => [round, commonOf([...offs.values()], course)]),
  );
  return histories.map((history) => ({
    ...history,
    weighings: history.weighings.map((w) => {
      const movedG = Date.parse(w.at) < from ? 0 : expectedG(common.get(w.round) ?? 0, w.emptyG, course);
      return { ...w, emptyG: w.emptyG - movedG };
    }),
  }));
}

/**
 * Watches the empty masses of sieves that are weighed together: a rise above a sieve's own cleaned level is grains
 * caught in its mesh, a slow fall wear, a step damage or another sieve; all moving together the balance, which is then
 * taken out before the sieves are judged one by one. Masses in g.
 *
 * @param histories each from when its sieve last began anew; a sieve alone can be watched, but not told from a balance
 * @source own rules, no source; false alarms and delays measured in docs/care-simulations.md
 */
export function tareWatch(histories: readonly TareHistory[], choice: TareChoice): TareWatch {
  const together = commonMove(histories, choice);
  const own = together?.cause === "balance" ? withoutBalance(histories, choice, together) : histories;
  return { together, sieves: own.map((history) => watchOne(history, choice)) };
}
