import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import { isAbove, isBelow } from "../compare.ts";
import { massWords } from "../wording.ts";

/** How a field sample is brought to a test portion: split so often, keep so many of the 2^splits equal parts. */
export interface SplitPlan {
  readonly splits: number;
  readonly keptParts: number;
  readonly portionG: number;
}

/** A part that is split more often than this is mostly splitter loss; more parts than that are not put together again. */
const MOST_SPLITS = 12;
const MOST_PARTS = 7;

/**
 * How many passes through a riffle bring a field sample into the range of the test portion. Each pass halves it:
 * portion = sample x kept / 2^splits. One kept half at each pass is preferred; where no halving lands in the range,
 * the fewest passes after which two to seven of the equal parts, put together again, do.
 *
 * @param sampleG mass of the field sample in g
 * @param minG smallest, @param maxG largest test portion in g
 * @returns the plan, or what is wrong: too small a sample, a range that no parts meet
 * @source common practice, no source (halving by riffle); ASTM C702 is not quoted
 * @example splitPlan(5000, 300, 500) // => { ok: true, value: { splits: 4, keptParts: 1, portionG: 312.5 } }
 */
export function splitPlan(sampleG: number, minG: number, maxG: number): Outcome<SplitPlan> {
  if (isAbove(minG, maxG))
    return refused(`at least ${massWords(minG)} are needed but ${massWords(maxG)} allowed: sieve in portions`);
  if (isBelow(sampleG, minG))
    return refused(`the sample of ${massWords(sampleG)} is too small: take ${massWords(minG - sampleG)} more`);
  const fair = (portionG: number) => !isBelow(portionG, minG) && !isAbove(portionG, maxG);
  const passes = Array.from({ length: MOST_SPLITS + 1 }, (_, splits) => splits);
  const halving = passes.find((splits) => fair(sampleG / 2 ** splits));
  if (halving !== undefined) return accepted({ splits: halving, keptParts: 1, portionG: sampleG / 2 ** halving });
  for (const splits of passes) {
    const keptParts = Math.ceil((minG / sampleG) * 2 ** splits);
    const portionG = (sampleG * keptParts) / 2 ** splits;
    if (keptParts <= MOST_PARTS && fair(portionG)) return accepted({ splits, keptParts, portionG });
  }
  return refused(noneLands(sampleG, minG, maxG));
}

function noneLands(sampleG: number, minG: number, maxG: number): string {
  const splits = Math.floor(Math.log2(sampleG / maxG));
  const left = (times: number) => massWords(sampleG / 2 ** times);
  const range = `${massWords(minG, maxG)} and ${massWords(maxG, minG)}`;
  return `${splits} splits leave ${left(splits)}, one more ${left(splits + 1)}: neither lies between ${range}`;
}
