import { type Determination, determined, undetermined } from "../../record/determination.ts";
import type { DeckClass } from "./classes.ts";

export interface PartitionClass extends DeckClass {
  /** Partition number: % of this class's mass that reports to the oversize. */
  readonly toOversizePct: Determination;
}

/**
 * Partition number of each class: of all that left the deck in this class, the part that went over,
 *
 *     T_i = 100 s d_i / (s d_i + (1-s) b_i)
 *
 * s the share of oversize, d_i and b_i the % of oversize and undersize in class i. The feed enters through s alone.
 * @returns T in % (0 to 100) for each class; for a class that neither product has, the reason
 * @source Tromp (1937); Wills, Mineral Processing Technology (both memory)
 */
export function partitionOf(classes: readonly DeckClass[], oversizeShare: number): readonly PartitionClass[] {
  return classes.map((each) => {
    const over = oversizeShare * each.oversizePct;
    const all = over + (1 - oversizeShare) * each.undersizePct;
    const toOversizePct =
      all > 0 ? determined(100 * (over / all), "%") : undetermined("neither product has anything in this class");
    return { ...each, toOversizePct };
  });
}
