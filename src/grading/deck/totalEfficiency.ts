/** A size class of any feed and how much of it a device catches. */
export interface CaughtClass {
  /** Mass in this class; any unit, the same for all. */
  readonly mass: number;
  /** Grade efficiency or partition number: % of this class that is caught (goes over). */
  readonly caughtPct: number;
}

/**
 * What a device with known grade efficiencies catches of a feed, in % by mass: `sum w_i G_i / sum w_i`. With a deck's partition
 * numbers and its own feed this is 100 D/F; with another feed it foretells that feed's share of oversize.
 * @returns % caught; null for a feed without mass
 * @source Coulson and Richardson, Chemical Engineering vol. 2, ch. 1 (example 1.5 seen)
 * @example
 * totalEfficiencyPct([{ mass: 1, caughtPct: 25 }, { mass: 3, caughtPct: 75 }]) // => 62.5
 */
export function totalEfficiencyPct(classes: readonly CaughtClass[]): number | null {
  const whole = classes.reduce((sum, { mass }) => sum + mass, 0);
  const caught = classes.reduce((sum, { mass, caughtPct }) => sum + mass * caughtPct, 0);
  return whole > 0 ? caught / whole : null;
}
