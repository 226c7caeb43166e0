import { type Determination, determined, undetermined } from "../../record/determination.ts";
import { pctWords } from "../words.ts";
import type { CoarserPct } from "./massSplit.ts";

/** The three that plants call efficiency, each by its own name (CP-13), 0 to 1. */
export interface Recoveries {
  readonly oversizeRecovery: Determination;
  readonly undersizeRecovery: Determination;
  readonly overallEffectiveness: Determination;
}

/** What rounding may add to a recovery of all there is. */
const ROUNDING = 1e-9;

/** In % points: what adding up shares may leave of nothing. */
const NOTHING_PCT = 1e-9;

function recovery(product: number, feed: number, part: "oversize" | "undersize"): Determination {
  if (!(feed > NOTHING_PCT)) return undetermined(`the feed has no ${part} at this aperture`);
  const share = product / feed;
  if (share <= 1 + ROUNDING) return determined(Math.min(1, share), "1");
  return undetermined(
    `the ${part} would hold ${pctWords(100 * share)} of what the feed has of it: feed and products do not balance here`,
  );
}

function overall(over: Determination, under: Determination): Determination {
  if (!over.determinable) return over;
  return under.determinable ? determined(over.value * under.value, "1") : under;
}

/**
 * Recoveries at one aperture, with s = D/F and x the coarser part of each stream:
 *
 *     oversize recovery E_A = D x_D / (F x_F)           of what should go over, the part that did
 *     undersize recovery E_B = B (1-x_B) / (F (1-x_F))  of what should go through, the part that did
 *     overall effectiveness E = E_A E_B
 *
 * x_F is that of the feed sample; where the streams do not balance, a recovery can come out above 1 and is refused.
 * @returns shares from 0 to 1; or the reason: the feed has nothing coarser (finer), or the streams do not balance here
 * @source McCabe, Smith and Harriott, Unit Operations of Chemical Engineering, ch. 30 (memory)
 */
export function recoveries(oversizeShare: number, coarserPct: CoarserPct): Recoveries {
  const { feed, oversize, undersize } = coarserPct;
  const oversizeRecovery = recovery(oversizeShare * oversize, feed, "oversize");
  const undersizeRecovery = recovery((1 - oversizeShare) * (100 - undersize), 100 - feed, "undersize");
  return { oversizeRecovery, undersizeRecovery, overallEffectiveness: overall(oversizeRecovery, undersizeRecovery) };
}

/**
 * The same with the feed that the two products add up to, `x_F = s x_D + (1-s) x_B`, instead of the sampled one: always
 * between 0 and 1, and equal to `recoveries` where the streams balance at this aperture.
 */
export function recoveriesOfProducts(oversizeShare: number, coarserPct: CoarserPct): Recoveries {
  const { oversize, undersize } = coarserPct;
  const feed = oversizeShare * oversize + (1 - oversizeShare) * undersize;
  return recoveries(oversizeShare, { feed, oversize, undersize });
}
