import type { ControlLine, ControlPoint } from "../chart/controlChart.ts";
import type { ChartedPoint, ControlChart } from "../control/controlChart.ts";
import type { Lines } from "../control/limits/chartLimits.ts";
import type { Signal } from "../control/rules/signals.ts";
import type { LineEvent } from "../shift/lineState.ts";
import type { Figure } from "../shift/trendFigure.ts";
import { say } from "../words/say.ts";
import { chartNumber } from "./trendFigures.ts";

/** How a trend is looked at: the values, their moving ranges, their weighted average, their cumulative sums. */
export const TREND_VIEWS = ["values", "moving range", "weighted average", "cumulative sums"] as const;
export type TrendView = (typeof TREND_VIEWS)[number];

/** The tests of a chart that are looked at: places of the first and the last. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface TrendDrawing {
  readonly series: readonly (readonly ControlPoint[])[];
  readonly lines: readonly ControlLine[];
}

type Heights = (number | null)[];

const pointAt = (y: number | null, leftOut: boolean, signals: number): ControlPoint => ({
  y,
  sign: signals > 0 ? "signal" : leftOut ? "leftOut" : "point",
});

const isOfSpread = ({ rule }: Signal): boolean => rule === "spread";

/** A line that the stretches between changes each have at their own height. */
function linesOf(chart: ControlChart, points: readonly ChartedPoint[], of: "values" | "spread") {
  const linesAt = ({ segment }: ChartedPoint): Lines | null => {
    const found = chart.segments[segment]?.limits;
    if (!found?.determinable) return null;
    return of === "values" ? found.limits : found.limits.spread;
  };
  const at = points.map(linesAt);
  const line = (kind: ControlLine["kind"], word: string, pick: (lines: Lines) => number): ControlLine => {
    const ys: Heights = at.map((lines) => (lines === null ? null : pick(lines)));
    const last = ys.findLast((y) => y !== null);
    return { kind, label: last === undefined || last === null ? "" : `${word} ${chartNumber(last, chart)}`, ys };
  };
  const lower = line("control", say`lower`, (lines) => lines.lower);
  const nothingBelow = of === "spread" && lower.ys.every((y) => y === null || y === 0);
  return [
    line("centre", say`centre`, (lines) => lines.centre),
    line("control", say`upper`, (lines) => lines.upper),
    ...(nothingBelow ? [] : [lower]),
  ];
}

function productLines(chart: ControlChart, { min, max }: Figure, tests: number): ControlLine[] {
  const line = (at: number, label: string): ControlLine => ({
    kind: "product",
    label,
    ys: Array<number>(tests).fill(at),
  });
  return [
    ...(max === null ? [] : [line(max, say`max ${chartNumber(max, chart)}`)]),
    ...(min === null ? [] : [line(min, say`min ${chartNumber(min, chart)}`)]),
  ];
}

function values(chart: ControlChart, points: readonly ChartedPoint[], figure: Figure): TrendDrawing {
  const run = points.map(({ value, leftOut, signals }) =>
    pointAt(value, leftOut, signals.filter((one) => !isOfSpread(one)).length),
  );
  const lines = [...linesOf(chart, points, "values"), ...productLines(chart, figure, points.length)];
  return { series: [run], lines };
}

function movingRange(chart: ControlChart, points: readonly ChartedPoint[]): TrendDrawing {
  const run = points.map(({ spread, leftOut, signals }) => pointAt(spread, leftOut, signals.filter(isOfSpread).length));
  return { series: [run], lines: linesOf(chart, points, "spread") };
}

const byPlace = <T extends { readonly index: number }>(points: readonly T[]): ReadonlyMap<number, T> =>
  new Map(points.map((point) => [point.index, point]));

function average(chart: ControlChart, points: readonly ChartedPoint[], figure: Figure): TrendDrawing {
  const at = byPlace(chart.ewma.points);
  const found = points.map(({ index }) => at.get(index) ?? null);
  const run = found.map((one) => pointAt(one?.ewma ?? null, false, one?.signal ? 1 : 0));
  const limit = (word: string, pick: "lower" | "upper"): ControlLine => {
    const ys: Heights = found.map((one) => one?.[pick] ?? null);
    const last = ys.findLast((y) => y !== null) ?? null;
    return { kind: "control", label: last === null ? "" : `${word} ${chartNumber(last, chart)}`, ys };
  };
  const [centre] = linesOf(chart, points, "values");
  const lines = [...(centre ? [centre] : []), limit(say`upper`, "upper"), limit(say`lower`, "lower")];
  return { series: [run], lines: [...lines, ...productLines(chart, figure, points.length)] };
}

/** What lies above the centre is summed upwards, what lies below it downwards. */
function sums(chart: ControlChart, points: readonly ChartedPoint[]): TrendDrawing {
  const at = byPlace(chart.cusum.points);
  const found = points.map(({ index }) => at.get(index) ?? null);
  const run = (side: "above" | "below", sign: 1 | -1) =>
    found.map((one) => pointAt(one === null ? null : sign * one[side], false, one?.side === side ? 1 : 0));
  const limits: Heights = found.map((one) => one?.limit ?? null);
  const last = limits.findLast((y) => y !== null) ?? null;
  const label = (word: string, sign: 1 | -1) => (last === null ? "" : `${word} ${chartNumber(sign * last, chart)}`);
  const lines: ControlLine[] = [
    { kind: "centre", label: "0", ys: found.map((one) => (one === null ? null : 0)) },
    { kind: "control", label: label(say`upper`, 1), ys: limits },
    { kind: "control", label: label(say`lower`, -1), ys: limits.map((y) => (y === null ? null : -y)) },
  ];
  return { series: [run("above", 1), run("below", -1)], lines };
}

const DRAWN = { values, "moving range": movingRange, "weighted average": average, "cumulative sums": sums } as const;

/** Points and lines of a stretch of a chart, in one of its views. */
export const trendDrawing = (chart: ControlChart, { from, to }: Stretch, figure: Figure, view: TrendView) =>
  DRAWN[view](chart, chart.points.slice(from, to + 1), figure);

/** Places, counted from the beginning of the stretch, of the first tests after each logged change. */
export function changesIn(chart: ControlChart, { from, to }: Stretch, marks: readonly LineEvent[]): number[] {
  const places = marks.flatMap((mark) => {
    const place = chart.points.findIndex(({ at }) => Date.parse(at) >= Date.parse(mark.at));
    return place > 0 && place >= from && place <= to ? [place - from] : [];
  });
  return [...new Set(places)];
}

/** Everything that is seen at one test: by the run rules, the spread, the weighted average, the sums. */
export function signalsAt(chart: ControlChart, index: number): readonly Signal[] {
  const remembering = [chart.ewma.points, chart.cusum.points].flatMap(
    (points) => points.find((point) => point.index === index)?.signal ?? [],
  );
  return [...(chart.points[index]?.signals ?? []), ...remembering];
}
