import type { TareFinding } from "./finding.ts";
import type { TareChoice } from "./history.ts";

/** Where the empty masses of a sieve may lie, in g. */
export interface TareBand {
  readonly levelG: number;
  readonly lowG: number;
  readonly highG: number;
}

/**
 * The masses between which nothing is said of an empty sieve: its own cleaned level, give or take the change from
 * which on it is told.
 *
 * @returns null while its level is not known
 * @source own rule, as `watchOne`
 * @example tareBand({ levelG: 400, toldFromG: 0.5 }) // => { levelG: 400, lowG: 399.5, highG: 400.5 }
 */
export function tareBand(finding: Pick<TareFinding, "levelG" | "toldFromG"> | null): TareBand | null {
  if (finding === null || finding.levelG === null || finding.toldFromG === null) return null;
  const { levelG, toldFromG } = finding;
  return { levelG, lowG: levelG - toldFromG, highG: levelG + toldFromG };
}

/** Whether a mass lies outside the band, in whole readabilities, so that binary fractions decide nothing. */
export function isOutside({ lowG, highG }: TareBand, emptyG: number, { readabilityG }: TareChoice): boolean {
  const spareG = readabilityG / 1000;
  return emptyG < lowG - spareG || emptyG > highG + spareG;
}
