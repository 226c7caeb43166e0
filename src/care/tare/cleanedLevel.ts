import { medianOf, scatterOf } from "../robust.ts";
import type { EmptyWeighing, TareChoice } from "./history.ts";

/** What a sieve weighs when it is clean, in g, and how far its weighings scatter about that. */
export interface CleanedLevel {
  readonly levelG: number;
  readonly scatterG: number;
  /** Index of the first weighing after those that it was learnt from. */
  readonly learnt: number;
}

/** So many weighings make a level. */
export const LEVEL_WEIGHINGS = 12;
/** After a known cleaning fewer will do. */
export const FEWEST_WEIGHINGS = 6;

const learning = (weighings: readonly EmptyWeighing[]): number => {
  const cleaned = weighings.findIndex((w) => w.cleaned === true);
  return cleaned >= 0 && weighings.length - cleaned >= FEWEST_WEIGHINGS ? cleaned : 0;
};

/**
 * A sieve's own cleaned level: the median of the first 12 weighings from the first one after a cleaning on, or, while
 * no cleaning is noted, of the first 12; scatter from one weighing to the next over all weighings since (which a slow
 * change or a single step hardly touches), at least that of the balance.
 *
 * @param weighings oldest first
 * @returns null with fewer than 6 weighings to learn from
 * @source common practice, no source
 */
export function cleanedLevel(weighings: readonly EmptyWeighing[], choice: TareChoice): CleanedLevel | null {
  const from = learning(weighings);
  const masses = weighings.slice(from).map((w) => w.emptyG);
  const learnt = masses.slice(0, LEVEL_WEIGHINGS);
  if (learnt.length < FEWEST_WEIGHINGS) return null;
  const floorG = choice.repeatabilityG ?? choice.readabilityG / 2;
  return { levelG: medianOf(learnt), scatterG: Math.max(floorG, scatterOf(masses)), learnt: from + learnt.length };
}
