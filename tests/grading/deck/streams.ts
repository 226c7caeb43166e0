import fc from "fast-check";
import type { DeckClass } from "../../../src/grading/deck/classes.ts";
import { deckClasses } from "../../../src/grading/deck/classes.ts";
import type { Grading } from "../../../src/grading/grading.ts";
import { fraction, graded, gradedOf } from "../stack.ts";

export interface DeckStreams {
  readonly feed: Grading;
  readonly oversize: Grading;
  readonly undersize: Grading;
}

export const STACK = [8000, 5600, 4000, 2800, 2000, 1000, 0] as const;

const gradedMasses = (massesG: readonly number[], stack: readonly number[]) =>
  gradedOf(massesG.map((netG, i) => fraction(stack[i]!, netG)));

/** Streams that balance by construction: each class of the feed (g) parted by its partition number (%). */
export function partedStreams(
  feedG: readonly number[],
  toOversizePct: readonly number[],
  stack: readonly number[] = STACK,
): DeckStreams {
  return {
    feed: gradedMasses(feedG, stack),
    oversize: gradedMasses(
      feedG.map((g, i) => (g * toOversizePct[i]!) / 100),
      stack,
    ),
    undersize: gradedMasses(
      feedG.map((g, i) => (g * (100 - toOversizePct[i]!)) / 100),
      stack,
    ),
  };
}

/** Screen deck B of Tessel Hollow on a good day (invented). */
export const FEED_G = [20, 80, 150, 200, 220, 230, 100] as const;
export const PARTITION_PCT = [100, 98, 90, 60, 20, 4, 1] as const;
export const deckB = partedStreams(FEED_G, PARTITION_PCT);
export const DECK_B_SHARE = FEED_G.reduce((sum, g, i) => sum + (g * PARTITION_PCT[i]!) / 100, 0) / 1000;

export function classesOf(streams: DeckStreams): readonly DeckClass[] {
  const outcome = deckClasses(streams);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

/** Net masses by aperture, as `graded` reads them, for the three streams. */
export const streamsOf = (feed: string, oversize: string, undersize: string): DeckStreams => ({
  feed: graded(feed),
  oversize: graded(oversize),
  undersize: graded(undersize),
});

/** Feeds of seven classes that all hold something, and partition numbers that rise with size and part the streams. */
export const anyDeck = fc
  .record({
    feedG: fc.array(fc.double({ min: 1, max: 300, noNaN: true }), { minLength: 7, maxLength: 7 }),
    partsPct: fc.uniqueArray(fc.integer({ min: 1, max: 99 }), { minLength: 7, maxLength: 7 }),
  })
  .map(({ feedG, partsPct }) => ({ feedG, partitionPct: partsPct.toSorted((a, b) => b - a) }));
