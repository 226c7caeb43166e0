import type { SieveLife } from "../../record/careLedger.ts";
import type { CareNote } from "../use/life.ts";
import { comparableTares } from "../use/tares.ts";
import type { TareChoice, TareHistory } from "./history.ts";
import { type TareWatch, tareWatch } from "./tareWatch.ts";

/** The empty weighings of a life as one history; those of a test make one round. */
export function tareHistory({ serial, apertureUm, weighings }: SieveLife, care: readonly CareNote[]): TareHistory {
  const inTests = weighings.map(({ at, emptyG, testId }) => ({ at, emptyG, round: testId }));
  return comparableTares({ serial, apertureUm: apertureUm ?? 0, weighings: inTests }, care);
}

/** Watches the empty masses of sieves that are used together, as far as they were weighed. */
export function watchLives(
  lives: readonly SieveLife[],
  care: readonly CareNote[],
  choice: TareChoice,
): TareWatch | null {
  const weighed = lives.filter((life) => life.weighings.length > 0);
  if (weighed.length === 0) return null;
  return tareWatch(
    weighed.map((life) => tareHistory(life, care)),
    choice,
  );
}
