import type { TestEntry } from "../../src/record/logEntry.ts";
import { FEED_G, PARTITION_PCT } from "../grading/deck/streams.ts";
import { recordedEntry } from "./stage.ts";

/** Screen deck B on a good day (invented), its classes on the six rows of the filter sand's stack. */
const FEED = FEED_G.slice(1);
const OVER = FEED.map((g, i) => (g * (PARTITION_PCT[i + 1] ?? 0)) / 100);
export const NETS_G = { feed: FEED, oversize: OVER, undersize: FEED.map((g, i) => g - (OVER[i] ?? 0)) };

/** A recorded test of other net masses. */
export function entryWith(number: number, lot: string, netsG: readonly number[]): TestEntry {
  const entry = recordedEntry(number, lot);
  const weighings = entry.test.weighings.map((weighing, i) => ({
    ...weighing,
    fullG: (weighing.emptyG ?? 0) + (netsG[i] ?? 0),
  }));
  return { ...entry, test: { ...entry.test, weighings } };
}

export const STREAM_ENTRIES = {
  feed: entryWith(1, "feed-1", NETS_G.feed),
  oversize: entryWith(2, "over-2", NETS_G.oversize),
  undersize: entryWith(3, "under-3", NETS_G.undersize),
};
