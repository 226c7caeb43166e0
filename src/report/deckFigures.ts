import type { Assessment } from "../assess.ts";
import { type DeckChoices, type DeckPerformance, deckPerformance } from "../grading/deck/deckPerformance.ts";
import { roundHalfAway } from "../grading/rounding.ts";
import type { Determination } from "../record/determination.ts";
import { figure as inFigures } from "../words/figures.ts";
import { say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { apertureText, NO_FIGURE, pctText, valueText } from "./figures.ts";

/** The three streams of a screen deck, in the order in which they are always named. */
export const STREAMS = ["feed", "oversize", "undersize"] as const;
export type StreamName = (typeof STREAMS)[number];

/** The performance of a deck from the assessments of its three streams. */
export const deckOf = (
  { feed, oversize, undersize }: Readonly<Record<StreamName, Pick<Assessment, "fractions">>>,
  choices: DeckChoices,
): DeckPerformance =>
  deckPerformance({ rows: feed.fractions }, { rows: oversize.fractions }, { rows: undersize.fractions }, choices);

/** One figure of a deck: its own name, its text, and what it rests on or why there is none. */
export interface DeckFigure {
  readonly label: string;
  readonly text: string;
  readonly told: readonly string[];
}

/** A share from 0 to 1 in percent. */
const share = (found: Determination): string =>
  found.determinable ? `${inFigures(roundHalfAway(100 * found.value, 1))} %` : NO_FIGURE;

const toldOf = (found: Determination): readonly string[] =>
  (found.determinable ? (found.assumptions ?? []) : [found.reason]).map(spoken);

const figure = (label: string, found: Determination, text: string = valueText(found)): DeckFigure => ({
  label,
  text,
  told: toldOf(found),
});

/** How the feed divides, and how well the three samples fit together. */
export function splitFigures({ oversizeShare, balance }: DeckPerformance): readonly DeckFigure[] {
  const error = balance?.shareError ?? null;
  const spread = error === null ? "" : ` +/- ${inFigures(roundHalfAway(100 * error, 1))}`;
  const misfit = balance
    ? say`rms ${pctText(balance.rmsPct, 2)}, worst ${pctText(balance.worstPct, 2)} on ${inFigures(spoken(balance.worstOn))}`
    : NO_FIGURE;
  return [
    figure(say`oversize share`, oversizeShare, `${share(oversizeShare)}${spread}`),
    { label: say`misfit in % points`, text: misfit, told: [] },
  ];
}

/** The three that plants call efficiency, each by its own name, and where they are taken. */
export function recoveryFigures(performance: DeckPerformance): readonly DeckFigure[] {
  const { cutUm, oversizeRecovery, undersizeRecovery, overallEffectiveness, ofProducts } = performance;
  const aperture = cutUm.determinable ? apertureText(cutUm.value) : NO_FIGURE;
  const both = (found: Determination, again: Determination) => `${share(found)} (${share(again)})`;
  return [
    figure(say`recoveries at`, cutUm, aperture),
    figure(say`oversize recovery`, oversizeRecovery, both(oversizeRecovery, ofProducts.oversizeRecovery)),
    figure(say`undersize recovery`, undersizeRecovery, both(undersizeRecovery, ofProducts.undersizeRecovery)),
    figure(
      say`overall effectiveness`,
      overallEffectiveness,
      both(overallEffectiveness, ofProducts.overallEffectiveness),
    ),
  ];
}

/** Where the deck cuts, and how sharply. */
export function cutFigures(performance: DeckPerformance): readonly DeckFigure[] {
  const { cutSizeUm, d25Um, d75Um, imperfection, sharpness, probableErrorUm } = performance;
  return [
    figure(say`cut size d50`, cutSizeUm),
    figure("d25", d25Um),
    figure("d75", d75Um),
    figure(say`probable error`, probableErrorUm),
    figure(say`imperfection`, imperfection),
    figure(say`sharpness d25/d75`, sharpness),
  ];
}

/** The size classes as cells of a table, with their heading: aperture, middle, shares of the streams, partition number; the last cell is empty, so that figures stand to the right. */
export function classCells({ partition }: DeckPerformance): readonly (readonly string[])[] {
  const rows = partition.map(({ apertureUm, sizeUm, feedPct, oversizePct, undersizePct, toOversizePct }) => [
    apertureText(apertureUm),
    valueText({ determinable: true, value: sizeUm, unit: "um" }),
    ...[feedPct, oversizePct, undersizePct].map((pct) => pctText(pct)),
    toOversizePct.determinable ? pctText(toOversizePct.value) : NO_FIGURE,
    "",
  ]);
  return [[say`class on`, say`middle`, say`feed`, say`oversize`, say`undersize`, say`goes over`, ""], ...rows];
}

/** What the three names mean, in one sentence each. */
export const RECOVERY_WORDS = [
  "Oversize recovery: of what should go over, the part that did. Undersize recovery: of what should go through, the part " +
    "that did. Overall effectiveness: the two multiplied.",
  "In brackets: the same with the feed that the two products add up to, in place of the sampled one; the farther they " +
    "are apart, the worse the three samples fit together.",
] as const;
