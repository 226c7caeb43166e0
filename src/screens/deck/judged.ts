import { assessTest } from "../../assess/assessTest.ts";
import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import type { DeckPerformance } from "../../grading/deck/deckPerformance.ts";
import type { Interpolation } from "../../record/product.ts";
import { deckOf, STREAMS, type StreamName } from "../../report/deckFigures.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import type { DeckPlace } from "../place.ts";

/** A deck as the place in hand shows it. */
export interface JudgedDeck {
  readonly performance: DeckPerformance;
  /** As the feed's product has it. */
  readonly interpolation: Interpolation;
  /** Sieves at which recoveries can be taken, coarsest first. */
  readonly sievesUm: readonly number[];
  /** What there is to warn of. */
  readonly warnings: readonly string[];
}

function unproven(stream: StreamName): string {
  switch (stream) {
    case "feed":
      return say`the test of the feed is invalid: its grading proves nothing`;
    case "oversize":
      return say`the test of the oversize is invalid: its grading proves nothing`;
    case "undersize":
      return say`the test of the undersize is invalid: its grading proves nothing`;
  }
}

/** The deck of three recorded tests; or why there is none, in the operator's words. */
export function judgedDeck({ streams, cutAt }: DeckPlace): Outcome<JudgedDeck> {
  const [feed, oversize, undersize] = [
    assessTest(streams.feed.test),
    assessTest(streams.oversize.test),
    assessTest(streams.undersize.test),
  ];
  if (!feed.ok) return refused(say`the feed: ${spoken(feed.reason)}`);
  if (!oversize.ok) return refused(say`the oversize: ${spoken(oversize.reason)}`);
  if (!undersize.ok) return refused(say`the undersize: ${spoken(undersize.reason)}`);
  const { interpolation, fractions } = feed.value;
  const sievesUm = fractions.map(({ apertureUm }) => apertureUm).filter((um) => um > 0);
  const cutUm = sievesUm[cutAt - 1];
  const graded = { feed: feed.value, oversize: oversize.value, undersize: undersize.value };
  const performance = deckOf(graded, { interpolation, ...(cutUm === undefined ? {} : { cutUm }) });
  if (!performance.oversizeShare.determinable) return refused(spoken(performance.oversizeShare.reason));
  const invalid = STREAMS.filter((stream) => streams[stream].test.signed.test === "invalid");
  const warnings = invalid.map(unproven);
  const over = STREAMS.some((stream) => graded[stream].apertures !== undefined);
  const nominally = over
    ? [say`a deck is judged by the nominal apertures, though a product here draws its curve over others`]
    : [];
  return accepted({ performance, interpolation, sievesUm, warnings: [...warnings, ...nominally] });
}
