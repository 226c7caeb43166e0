import { actionLimitG, type TareChoice } from "./history.ts";

/** Where the empty masses of a sieve may lie, in g. */
export interface TareBand {
  readonly levelG: number;
  readonly lowG: number;
  readonly highG: number;
}

/**
 * The masses between which nothing is said of an empty sieve: its own cleaned level, give or take the action limit.
 *
 * @source plant practice: a suggestion, recalled; see `actionLimitG`
 * @example tareBand(400, { readabilityG: 0.01, actionG: 0.5 }) // => { levelG: 400, lowG: 399.5, highG: 400.5 }
 */
export function tareBand(levelG: number, choice: TareChoice): TareBand {
  const actionG = actionLimitG(choice);
  return { levelG, lowG: levelG - actionG, highG: levelG + actionG };
}

/** Whether a mass lies outside the band, in whole readabilities, so that binary fractions decide nothing. */
export function isOutside({ lowG, highG }: TareBand, emptyG: number, { readabilityG }: TareChoice): boolean {
  const spareG = readabilityG / 1000;
  return emptyG < lowG - spareG || emptyG > highG + spareG;
}
