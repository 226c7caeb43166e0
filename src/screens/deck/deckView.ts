import { partitionChart, partitionLegend } from "../../chart/partitionChart.ts";
import { barsText } from "../../report/chartWords.ts";
import { inColumns, wrapped } from "../../report/columns.ts";
import {
  classCells,
  cutFigures,
  type DeckFigure,
  recoveryFigures,
  STREAMS,
  type StreamName,
  splitFigures,
} from "../../report/deckFigures.ts";
import { sizeText } from "../../report/figures.ts";
import { columnsOf } from "../../terminal/sanitise.ts";
import { momentText } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { BLANK, beside, cells, type Line, line, pictured, span, unsaid } from "../line.ts";
import { streamText } from "../log/marks.ts";
import type { App, Size } from "../place.ts";
import { here } from "../room.ts";
import { tabledTexts } from "../sentences.ts";
import { shortVerdict } from "../words.ts";
import { type JudgedDeck, judgedDeck } from "./judged.ts";

const LABEL_COLUMNS = 22;
const FIGURE_COLUMNS = 41;
const NARROWEST_CHART = 18;
const LOWEST_CHART = 6;
/** The names of the streams have a column of their own, as wide as a language needs. */
const nameColumns = (): number => Math.max(...STREAMS.map((stream) => columnsOf(streamText(stream)))) + 4;

function streamLine(app: App, stream: StreamName): Line {
  const { at, test } = here(app, "deck").streams[stream];
  const verdict = shortVerdict(test.signed.test, test.signed.product);
  const names = nameColumns();
  return cells([
    { text: `  ${streamText(stream)}`, columns: names, role: "strong" },
    { text: test.lot, columns: 12 },
    { text: test.product.code, columns: 10 },
    { text: verdict.text, columns: 14, role: verdict.role },
    { text: momentText(at), columns: 18 },
    { text: test.line, columns: 26 - names },
  ]);
}

const figureLine = ({ label, text }: DeckFigure): Line => [
  span(`  ${label.padEnd(LABEL_COLUMNS)}`, "dim"),
  span(text, "strong"),
];

/** What the figures rest on, or why some are missing, each said once. */
const toldLines = (figures: readonly DeckFigure[], columns: number): Line[] =>
  [...new Set(figures.flatMap(({ told }) => told))].flatMap((words) =>
    wrapped(words, columns - 4).map((text) => line(`  ${text}`, "dim")),
  );

function chartLines({ performance, interpolation }: JudgedDeck, width: number, height: number): Line[] {
  if (width < NARROWEST_CHART || height < LOWEST_CHART) return [];
  const drawn = partitionChart({ performance, interpolation, width, height: height - 1 });
  const told = () => {
    const parts = performance.partition.flatMap(({ sizeUm, toOversizePct: over }) =>
      over.determinable ? [[sizeText(sizeUm), over.value] as const] : [],
    );
    return barsText(say`% that goes over`, parts);
  };
  const legend = unsaid(line(say`% that goes over   ${partitionLegend()}`, "dim"));
  return [
    legend,
    ...pictured(
      drawn.map((text) => line(text)),
      told,
    ),
  ];
}

function tableLines({ performance }: JudgedDeck): Line[] {
  const texts = classCells(performance);
  const title = line(say`  % by mass of each stream; goes over: % of the class`, "dim");
  const drawn = inColumns(texts).map((text, i) => line(`  ${text}`, i === 0 ? "dim" : "plain"));
  return [title, ...tabledTexts(drawn, texts)];
}

function curveLines(deck: JudgedDeck, size: Size): Line[] {
  const figures = [...recoveryFigures(deck.performance), ...cutFigures(deck.performance)];
  const told = [
    ...toldLines(figures, size.columns),
    line(say`  in brackets: with the feed that the two products add up to`, "dim"),
  ];
  const gap = size.rows > figures.length + told.length ? [BLANK] : [];
  const height = Math.max(figures.length, size.rows - told.length - gap.length);
  const chart = chartLines(deck, size.columns - FIGURE_COLUMNS - 1, Math.min(height, size.rows - gap.length));
  const left = figures.map(figureLine);
  const block = chart.length === 0 ? left : beside(left, FIGURE_COLUMNS, chart);
  return [...gap, ...block, ...told];
}

/** The three tests, the figures beside the partition curve or the classes as a table; or why there is nothing. */
export function deckBody(app: App, size: Size): readonly Line[] {
  const place = here(app, "deck");
  const streams = STREAMS.map((stream) => streamLine(app, stream));
  const deck = judgedDeck(place);
  if (!deck.ok) {
    const reason = wrapped(`! ${deck.reason}`, size.columns - 4).map((text) => line(`  ${text}`, "warning"));
    return [...streams, [], ...reason];
  }
  const warnings = deck.value.warnings.map((text) => line(`  ! ${text}`, "warning"));
  const split = place.view === "curve" ? splitFigures(deck.value.performance).map(figureLine) : [];
  const head = [...streams, ...warnings, ...split];
  const rest = { columns: size.columns, rows: size.rows - head.length };
  const lower = place.view === "curve" ? curveLines(deck.value, rest) : tableLines(deck.value);
  return [...head, ...lower];
}
