import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import { pctWords } from "../words.ts";
import type { DeckClass } from "./classes.ts";

/** How the feed divides: the oversize as a share of the feed by mass, 0 to 1 (the undersize is the rest). */
export interface MassSplit {
  readonly oversizeShare: number;
}

/** In % points: a smaller difference between two streams is none. */
const SAME_PCT = 1e-6;

function within(oversizeShare: number): Outcome<MassSplit> {
  if (oversizeShare > 0 && oversizeShare < 1) return accepted({ oversizeShare });
  const share = `the oversize would be ${oversizeShare < 0 ? "less than nothing" : pctWords(100 * oversizeShare)} of the feed`;
  return refused(
    `the three gradings do not balance: ${share}; were the samples exchanged or taken at different times?`,
  );
}

const sameStreams = refused(
  "oversize and undersize have the same grading: nothing was separated, or one was sieved twice",
);

/**
 * Mass split from all size classes at once. Each class should obey f = s d + (1-s) b; by least squares over them
 *
 *     s = D/F = sum (f_i - b_i)(d_i - b_i) / sum (d_i - b_i)^2
 *
 * f, d, b: % of feed, oversize (overflow D) and undersize (underflow B) in class i; each class has the same weight.
 * @returns D/F, above 0 and below 1; or why it cannot be: equal streams, or a balance that only a share outside gives
 * @source formulas of two-product balances: Wills, Mineral Processing Technology (memory)
 */
export function splitByClasses(classes: readonly DeckClass[]): Outcome<MassSplit> {
  let [over, under] = [0, 0];
  for (const { feedPct, oversizePct, undersizePct } of classes) {
    over += (feedPct - undersizePct) * (oversizePct - undersizePct);
    under += (oversizePct - undersizePct) ** 2;
  }
  return under > SAME_PCT ** 2 ? within(over / under) : sameStreams;
}

/** % by mass of each stream that is coarser than one aperture. */
export interface CoarserPct {
  readonly feed: number;
  readonly oversize: number;
  readonly undersize: number;
}

/**
 * Mass split from one aperture alone: `D/F = (x_F - x_B) / (x_D - x_B)`, x the coarser part of each stream.
 * @returns as `splitByClasses`
 * @source McCabe, Smith and Harriott, Unit Operations of Chemical Engineering, ch. 30 (memory)
 */
export function splitAtCut({ feed, oversize, undersize }: CoarserPct): Outcome<MassSplit> {
  const apart = Math.abs(oversize - undersize) > SAME_PCT;
  return apart ? within((feed - undersize) / (oversize - undersize)) : sameStreams;
}
