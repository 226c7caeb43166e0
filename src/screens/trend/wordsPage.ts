import { wrapped } from "../../report/columns.ts";
import { capabilityWords, changeText, forecastWords, limitsWords } from "../../report/trendWords.ts";
import { shortMoment } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line } from "../line.ts";
import type { App, Size } from "../place.ts";
import { type Binding, here } from "../room.ts";
import { type Looked, looked } from "./looked.ts";
import { put } from "./trendPlace.ts";

interface Told {
  readonly heading: string;
  readonly words: readonly string[];
}

const asideWords = ({ chart }: Looked): readonly string[] =>
  chart.setAside.map(({ at, reason }) => `${shortMoment(at)}: ${spoken(reason)}`);

/** Everything that is said of a trend, in full. */
function toldOf(app: App, seen: Looked): readonly Told[] {
  const { chart, figure, marks } = seen;
  const frozen = here(app, "trend").read?.frozen ?? [];
  const { capability, forecast } = chart;
  const limits = chart.segments.map((segment) => {
    const words = limitsWords(segment, chart, frozen);
    return segment.why === null ? words : say`after ${spoken(segment.why)}: ${words}`;
  });
  return [
    { heading: say`control limits, the newest last`, words: [...limits, ...chart.notes.map(spoken)] },
    {
      heading: say`capability since the last change`,
      words: [capabilityWords(capability), ...capability.warnings.map(spoken)],
    },
    { heading: say`drift since the last change`, words: [forecastWords(figure, forecast)] },
    {
      heading: say`logged of the line`,
      words: marks.map((mark) => say`${shortMoment(mark.at)} ${changeText(mark)}, by ${mark.by}`),
    },
    { heading: say`tests without a point`, words: asideWords(seen) },
  ];
}

function linesOf(app: App, columns: number): readonly Line[] {
  const seen = looked(app);
  if (seen === null) return [line(say`  reading the log ...`, "dim")];
  return toldOf(app, seen).flatMap(({ heading, words }) => [
    line(`  ${heading}`, "strong"),
    ...(words.length === 0 ? [say`none`] : words)
      .filter((text) => text !== "")
      .flatMap((text) => wrapped(text, columns - 6, "  ").map((row) => line(`    ${row}`))),
    [],
  ]);
}

export const wordsBody = (app: App, { columns }: Size): readonly Line[] => linesOf(app, columns);

export const WORDS_KEYS: readonly Binding[] = [
  {
    keys: ["escape", "enter", "c"],
    word: "back",
    help: "Back to the chart.",
    does: (app) => put(app, { page: "chart", at: 0 }),
  },
];
