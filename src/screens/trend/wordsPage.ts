import { wrapped } from "../../report/columns.ts";
import { capabilityWords, forecastWords, limitsWords, shortMoment } from "../../report/trendWords.ts";
import { changeWords } from "../../shift/trend.ts";
import { say } from "../../words/say.ts";
import { type Line, line } from "../line.ts";
import { type App, type Size, type Step, stay } from "../place.ts";
import { type Binding, here } from "../room.ts";
import { type Looked, looked } from "./looked.ts";
import { put } from "./trendPlace.ts";

interface Told {
  readonly heading: string;
  readonly words: readonly string[];
}

const asideWords = ({ chart }: Looked): readonly string[] =>
  chart.setAside.map(({ at, reason }) => `${shortMoment(at)}: ${reason}`);

/** Everything that is said of a trend, in full. */
function toldOf(app: App, seen: Looked): readonly Told[] {
  const { chart, figure, marks } = seen;
  const frozen = here(app, "trend").read?.frozen ?? [];
  const { capability, forecast } = chart;
  const limits = chart.segments.map((segment) =>
    [segment.why === null ? "" : `after ${segment.why}: `, limitsWords(segment, chart, frozen)].join(""),
  );
  return [
    { heading: say`control limits, the newest last`, words: [...limits, ...chart.notes] },
    { heading: say`capability since the last change`, words: [capabilityWords(capability), ...capability.warnings] },
    { heading: say`drift since the last change`, words: [forecastWords(figure, forecast)] },
    {
      heading: say`logged of the line`,
      words: marks.map((mark) => `${shortMoment(mark.at)} ${changeWords(mark)}, by ${mark.by}`),
    },
    { heading: say`tests without a point`, words: asideWords(seen) },
  ];
}

function linesOf(app: App, columns: number): readonly Line[] {
  const seen = looked(app);
  if (seen === null) return [line(say`  reading the log ...`, "dim")];
  return toldOf(app, seen).flatMap(({ heading, words }) => [
    line(`  ${heading}`, "strong"),
    ...(words.length === 0 ? ["none"] : words)
      .filter((text) => text !== "")
      .flatMap((text) => wrapped(text, columns - 6, "  ").map((row) => line(`    ${row}`))),
    [],
  ]);
}

export const wordsBody = (app: App, size: Size): readonly Line[] =>
  linesOf(app, size.columns).slice(here(app, "trend").at);

/** Scrolled by lines as they are at 80 columns; a wider screen needs fewer. */
const NARROW = 80;

function scroll(app: App, by: number): Step {
  const last = Math.max(0, linesOf(app, NARROW).length - 3);
  const at = Math.max(0, Math.min(last, here(app, "trend").at + by));
  return at === here(app, "trend").at ? stay(app) : put(app, { at });
}

export const WORDS_KEYS: readonly Binding[] = [
  { keys: ["up"], word: "scroll", help: "A line up.", does: (app) => scroll(app, -1) },
  { keys: ["down"], word: "scroll", help: "A line down.", does: (app) => scroll(app, 1), quiet: true },
  { keys: ["page up", "ctrl+b"], word: "page", help: "A page up.", does: (app) => scroll(app, -12) },
  { keys: ["page down", "ctrl+f"], word: "page", help: "A page down.", does: (app) => scroll(app, 12), quiet: true },
  {
    keys: ["escape", "enter", "c"],
    word: "back",
    help: "Back to the chart.",
    does: (app) => put(app, { page: "chart", at: 0 }),
  },
];
