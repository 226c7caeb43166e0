import { controlChart } from "../chart/controlChart.ts";
import { controlLegend } from "../chart/controlGlyphs.ts";
import type { ControlChart } from "../control/controlChart.ts";
import type { LimitsFrozen } from "../shift/trend.ts";
import { drawable } from "../terminal/sanitise.ts";
import { shortMoment } from "../words/figures.ts";
import { wrapped } from "./columns.ts";
import { changesIn, signalsAt, trendDrawing } from "./trendDrawing.ts";
import { chartText } from "./trendFigures.ts";
import type { TrendAsked } from "./trendJson.ts";
import { allowedWords, capabilityWords, changeText, forecastWords, limitsWords } from "./trendWords.ts";

export interface TrendLook {
  readonly width: number;
  readonly ascii: boolean;
}

const CHART_ROWS = 18;
const MOST_SIGNALS = 12;

/** The newest tests at which anything is seen, each with the reasons. */
function signalLines(chart: ControlChart, unitOf: (found: number) => string): readonly string[] {
  const seen = chart.points
    .map((point) => ({ point, signals: signalsAt(chart, point.index) }))
    .filter(({ signals }) => signals.length > 0);
  const shown = seen.slice(-MOST_SIGNALS);
  const more = seen.length > shown.length ? [`and ${seen.length - shown.length} earlier tests`] : [];
  const lines = shown.map(
    ({ point, signals }) =>
      `${shortMoment(point.at)}  ${unitOf(point.value)}  ${signals.map(({ words }) => words).join("; ")}`,
  );
  return [...more, ...lines];
}

function section(heading: string, lines: readonly string[], width: number): readonly string[] {
  const told = lines.filter((text) => text !== "");
  if (told.length === 0) return [];
  return ["", heading, ...told.flatMap((text) => wrapped(text, width - 2, "  ").map((row) => `  ${row}`))];
}

function drawing(chart: ControlChart, asked: TrendAsked, { width, ascii }: TrendLook): readonly string[] {
  if (chart.points.length === 0) return ["no test has a value to chart"];
  const stretch = { from: 0, to: chart.points.length - 1 };
  const { min, max } = asked.figure;
  return [
    ...controlChart({
      ...trendDrawing(chart, stretch, asked.figure, "values"),
      changes: changesIn(chart, stretch, asked.marks),
      ends: [shortMoment(chart.points[0]?.at ?? ""), shortMoment(chart.points.at(-1)?.at ?? "")],
      width,
      height: CHART_ROWS,
      ascii,
    }).map((row) => row.trimEnd()),
    controlLegend({
      limited: min !== null || max !== null,
      crowded: chart.points.length > width - AXIS_COLUMNS,
      ascii,
    }),
  ];
}

/** What names and axis take of the width of a chart, about. */
const AXIS_COLUMNS = 12;

/** A trend as a page of text: the chart, then everything that is said of it. */
export function trendPage(
  chart: ControlChart,
  asked: TrendAsked,
  frozen: readonly LimitsFrozen[],
  look: TrendLook,
): string {
  const { product, line, figure, marks, notes } = asked;
  const limits = chart.segments.map((segment) =>
    [segment.why === null ? "" : `after ${segment.why}: `, limitsWords(segment, chart, frozen)].join(""),
  );
  const { capability, forecast } = chart;
  const lines = [
    `${product.code} rev ${product.revision} on ${line}: ${figure.label}, ${chart.points.length} tests; product's limits: ${allowedWords(figure)}`,
    "",
    ...drawing(chart, asked, look),
    ...section("control limits", [...limits, ...chart.notes, ...notes], look.width),
    ...section(
      "signals",
      signalLines(chart, (found) => chartText(found, chart)),
      look.width,
    ),
    ...section("capability", [capabilityWords(capability), ...capability.warnings], look.width),
    ...section("drift", [forecastWords(figure, forecast)], look.width),
    ...section(
      "logged of the line",
      marks.map((mark) => `${shortMoment(mark.at)}  ${changeText(mark)}, by ${mark.by}`),
      look.width,
    ),
    ...section(
      "tests without a point",
      chart.setAside.map(({ at, reason }) => `${shortMoment(at)}  ${reason}`),
      look.width,
    ),
  ];
  return `${lines.map(drawable).join("\n")}\n`;
}
