import { controlChart } from "../../chart/controlChart.ts";
import { controlLegend } from "../../chart/controlGlyphs.ts";
import { seriesText } from "../../report/chartWords.ts";
import { wrapped } from "../../report/columns.ts";
import { changesIn, signalsAt, type TrendView, trendDrawing } from "../../report/trendDrawing.ts";
import { chartText } from "../../report/trendFigures.ts";
import {
  allowedWords,
  capabilityWords,
  changeText,
  forecastWords,
  limitsWords,
  shortCapabilityWords,
} from "../../report/trendWords.ts";
import type { Zoom } from "../../shift/trendWindow.ts";
import { shortMoment } from "../../words/figures.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { clipped, type Line, line, pictured, sentenceOf, span, unsaid, widthOf } from "../line.ts";
import type { App, Size } from "../place.ts";
import { here } from "../room.ts";
import { rowVerdict } from "../words.ts";
import { type Looked, looked } from "./looked.ts";

const LOWEST_CHART = 5;

const VIEW_WORDS: Readonly<Record<TrendView, string>> = {
  values: phrase("values"),
  "moving range": phrase("moving range"),
  "weighted average": phrase("weighted average (EWMA)"),
  "cumulative sums": phrase("cumulative sums (CUSUM)"),
};

/** "3 shifts", "1 week"; nothing where tests are counted. */
function spanText({ unit, many }: Zoom): string {
  switch (unit) {
    case "tests":
      return "";
    case "shifts":
      return many === 1 ? say`1 shift: ` : say`${many} shifts: `;
    case "days":
      return many === 1 ? say`1 day: ` : say`${many} days: `;
    case "weeks":
      return many === 1 ? say`1 week: ` : say`${many} weeks: `;
    case "months":
      return many === 1 ? say`1 month: ` : say`${many} months: `;
  }
}

function caption(app: App, { figure, chart, stretch }: Looked, columns: number): readonly Line[] {
  const place = here(app, "trend");
  const shown = Math.max(0, stretch.to - stretch.from + 1);
  const more = place.reading !== null ? say`, reading more ...` : place.read?.older ? "" : say`, all there are`;
  const told = [
    `${spoken(figure.label)}: ${allowedWords(figure)}`,
    spoken(VIEW_WORDS[place.view]),
    `${spanText(place.zoom)}${say`${shown} of ${chart.points.length} tests`}${more}`,
  ];
  return wrapped(told.join(" · "), columns - 2, "  ").map((text) => line(`  ${text}`, "dim"));
}

function drawn(app: App, seen: Looked, width: number, height: number): readonly Line[] {
  const { chart, stretch, figure, cursor, marks } = seen;
  const at = (index: number) => shortMoment(chart.points[index]?.at ?? "");
  const rows = controlChart({
    ...trendDrawing(chart, stretch, figure, here(app, "trend").view),
    changes: changesIn(chart, stretch, marks),
    cursor: cursor - stretch.from,
    ends: [at(stretch.from), at(stretch.to)],
    width,
    height,
  });
  const values = chart.points.slice(stretch.from, stretch.to + 1).map(({ value }) => value);
  return pictured(
    rows.map((text) => line(`  ${text}`)),
    () => seriesText(values, figure.unit),
  );
}

/** The test in hand, and what is said of it. */
function pointLines(app: App, { chart, cursor, rows, figure }: Looked, columns: number): readonly Line[] {
  const point = chart.points[cursor];
  const row = rows[cursor];
  if (point === undefined || row === undefined) return [];
  const place = here(app, "trend");
  const marked = place.marked.includes(point.testId) ? say`  marked` : "";
  const out = point.leftOut ? say`  left out of the reckoning` : "";
  const verdict = rowVerdict(row);
  const signals = signalsAt(chart, cursor).map(({ words }) => spoken(words));
  return [
    [
      span("  ▲ ", "strong"),
      span(say`${shortMoment(point.at)}  no. ${row.number}  lot ${row.lot}  `),
      span(`${spoken(figure.label)} ${chartText(point.value, chart)}  `, "strong"),
      span(verdict.text, verdict.role),
      span(`${marked}${out}`, "dim"),
    ],
    ...(signals.length > 0
      ? wrapped(signals.join("; "), columns - 6).map((text, i) => line(`  ${i === 0 ? "◆" : " "} ${text}`, "warning"))
      : [line(say`    no signal at this test`, "dim")]),
  ];
}

/** The change that began the stretch of the test in hand, and the newest mark before it that began none. */
function changeLine({ chart, cursor, marks }: Looked): readonly Line[] {
  const at = Date.parse(chart.points[cursor]?.at ?? "");
  const before = marks.findLast((mark) => Date.parse(mark.at) <= at);
  if (before === undefined) return [];
  return [line(say`  ┊ ${shortMoment(before.at)} ${before.line}, ${changeText(before)}, by ${before.by}`, "dim")];
}

/** What keeps the indices from meaning what they seem to, as short as there is room for. */
function warnings({ chart: { capability } }: Looked, wide: boolean): string {
  const { length } = capability.warnings;
  if (length === 0) return "";
  if (wide) return `  ! ${capability.warnings.map(spoken).join("; ")}`;
  return length === 1 ? say`  ! a warning: c tells` : say`  ! ${length} warnings: c tells`;
}

function toldLines(app: App, seen: Looked, columns: number, wide: boolean): readonly Line[] {
  const { chart, cursor, figure } = seen;
  const segment = chart.segments[chart.points[cursor]?.segment ?? -1] ?? chart.segments.at(-1);
  const indices = wide ? capabilityWords(chart.capability) : shortCapabilityWords(chart.capability);
  const frozen = here(app, "trend").read?.frozen ?? [];
  const drifting = chart.forecast.reach.determinable;
  const told = forecastWords(figure, chart.forecast);
  const drift = `${drifting ? "! " : ""}${chart.forecast.trend.determinable ? say`drift: ${told}` : told}`;
  const { length } = chart.setAside;
  const aside = length === 0 ? [] : [line(say`  ${length} tests have no point: c says why`, "dim")];
  return [
    ...(segment ? [line(`  ${limitsWords(segment, chart, frozen)}`)] : []),
    ...(indices === "" ? [] : [line(`  ${indices}${warnings(seen, wide)}`)]),
    ...wrapped(drift, columns - 4, "  ").map((text) => line(`  ${text}`, drifting ? "warning" : "plain")),
    ...(wide ? aside : []),
  ];
}

const LIMITED_VIEWS: readonly TrendView[] = ["values", "weighted average"];

/** More tests than the chart has columns, beside its axis. */
const isCrowded = ({ stretch }: Looked, { columns }: Size): boolean => stretch.to - stretch.from + 1 > columns - 16;

const isLimited = ({ figure: { min, max } }: Looked): boolean => min !== null || max !== null;

const nothing = (text: string, columns: number): readonly Line[] => [
  [],
  ...wrapped(text, columns - 4, "  ").map((row) => line(`  ${row}`, "dim")),
];

/** The control chart of one figure, the test in hand, and all that is said of both. */
export function chartBody(app: App, size: Size): readonly Line[] {
  const place = here(app, "trend");
  const seen = looked(app);
  if (seen === null)
    return nothing(
      place.reading === null ? say`this product has no figure to show` : say`reading the log ...`,
      size.columns,
    );
  const { chart, figure } = seen;
  const wide = size.columns >= 100 && size.rows >= 28;
  const head = caption(app, seen, size.columns);
  if (chart.points.length === 0) {
    const why =
      chart.setAside.length > 0
        ? say`none of ${chart.setAside.length} tests: ${spoken(chart.setAside.at(-1)?.reason ?? "")}`
        : say`no test yet`;
    return [
      ...head,
      ...nothing(
        say`${spoken(figure.label)} of ${place.product} on ${place.line ?? say`any line`}: ${why}`,
        size.columns,
      ),
    ];
  }
  const below = [
    unsaid(
      line(
        `  ${controlLegend({ limited: isLimited(seen) && LIMITED_VIEWS.includes(place.view), crowded: isCrowded(seen, size) })}`,
        "dim",
      ),
    ),
    ...pointLines(app, seen, size.columns),
    ...(size.rows >= 17 ? changeLine(seen) : []),
    ...toldLines(app, seen, size.columns, wide),
  ];
  const text = below.flatMap((told) => unfolded(told, size.columns));
  const height = Math.max(LOWEST_CHART, size.rows - head.length - text.length);
  return [...head, ...drawn(app, seen, size.columns - 4, height), ...text];
}

/** A long line in as many as it needs, where there is room. */
function unfolded(told: Line, columns: number): readonly Line[] {
  const [only] = told;
  if (sentenceOf(told) !== null || told.length !== 1 || only === undefined || widthOf(told) <= columns)
    return [clipped(told, columns)];
  return wrapped(only.text.trimStart(), columns - 4, "  ").map((text) => line(`  ${text}`, only.role));
}
