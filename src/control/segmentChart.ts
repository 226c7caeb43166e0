import type { ChartChoice } from "./chartChoice.ts";
import { SPREAD_RULES } from "./chartKind.ts";
import type { Plotted } from "./chartPoint.ts";
import type { ChartedPoint, Placed, Segment } from "./controlChart.ts";
import type { ChartLimits, Lines } from "./limits/chartLimits.ts";
import { reckoned, segmentLimits, spreadsOf } from "./limits/segment.ts";
import type { Span } from "./limits/spans.ts";
import { type CusumPoint, cusumOf } from "./memory/cusum.ts";
import { type EwmaPoint, ewmaOf } from "./memory/ewma.ts";
import { runSignals, type Signal } from "./rules/signals.ts";

/** One stretch, charted. */
export interface SegmentChart {
  readonly segment: Segment;
  readonly points: readonly ChartedPoint[];
  readonly ewma: readonly Placed<EwmaPoint>[];
  readonly cusum: readonly Placed<CusumPoint>[];
}

type Sided = { readonly side: "above" | "below" | null };

/** Puts the points of a chart with memory at the places of their tests. */
function placed<T extends Sided>(
  points: readonly T[],
  places: readonly number[],
  rule: "ewma" | "cusum",
  words: (side: "above" | "below") => string,
): Placed<T>[] {
  return points.map((point, i) => {
    const [index, { side }] = [places[i] ?? 0, point];
    return { ...point, index, signal: side === null ? null : { index, rule, side, words: words(side) } };
  });
}

function spreadSignal(spread: number | null, lines: Lines, name: string, index: number): Signal[] {
  if (spread === null || (spread <= lines.upper && spread >= lines.lower)) return [];
  const side = spread > lines.upper ? "above" : "below";
  return [{ index, rule: "spread", side, words: `${name} ${side} its limit` }];
}

const averageWords = (side: "above" | "below") => `weighted average ${side} its limit`;
const sumWords = (side: "above" | "below") => `cumulative sum of what lies ${side} the centre is beyond its limit`;

/** Averages and sums over the tests that are not left out. */
function memory(tests: readonly Plotted[], from: number, limits: ChartLimits, choice: ChartChoice) {
  const { kept, values } = reckoned(tests, choice);
  const places = kept.map((i) => from + i);
  const sums = cusumOf(values, limits, choice.cusum).map((point) => ({
    ...point,
    since: point.since === null ? null : (places[point.since] ?? null),
  }));
  return {
    ewma: placed(ewmaOf(values, limits, choice.ewma), places, "ewma", averageWords),
    cusum: placed(sums, places, "cusum", sumWords),
  };
}

/** What the run rules see in the tests that are not left out; one that is left out is judged by itself. */
function runsIn(tests: readonly Plotted[], limits: ChartLimits, choice: ChartChoice): Signal[] {
  const { kept, values } = reckoned(tests, choice);
  const seen = runSignals(values, limits, choice.rules).map((one) => ({ ...one, index: kept[one.index] ?? 0 }));
  const inRun = new Set(kept);
  const alone = tests.flatMap(({ value }, index) =>
    inRun.has(index) ? [] : runSignals([value], limits, choice.rules).map((one) => ({ ...one, index })),
  );
  return [...seen, ...alone];
}

function signalsAt(tests: readonly Plotted[], limits: ChartLimits | null, choice: ChartChoice): Signal[][] {
  const at: Signal[][] = tests.map(() => []);
  if (!limits) return at;
  for (const signal of runsIn(tests, limits, choice)) at[signal.index]?.push(signal);
  if (!choice.spreadSignals) return at;
  const { words } = SPREAD_RULES[choice.chart];
  for (const [i, spread] of spreadsOf(tests, choice).entries())
    at[i]?.push(...spreadSignal(spread, limits.spread, words, i));
  return at;
}

function pointsOf(tests: readonly Plotted[], segment: Segment, choice: ChartChoice): ChartedPoint[] {
  const { limits, from } = segment;
  const baseline = new Set(limits.determinable && limits.origin.from === "baseline" ? limits.origin.indices : []);
  const signals = signalsAt(tests, limits.determinable ? limits.limits : null, choice);
  const spreads = spreadsOf(tests, choice);
  return tests.map(({ at, testId, value }, i) => ({
    index: from + i,
    at,
    testId,
    value,
    spread: spreads[i] ?? null,
    segment: segment.index,
    inBaseline: baseline.has(from + i),
    leftOut: choice.leftOut.includes(testId),
    signals: (signals[i] ?? []).map((signal) => ({ ...signal, index: from + i })),
  }));
}

/** Charts one stretch between changes: its limits, and everything that is seen in it by them. */
export function segmentChart(
  all: readonly Plotted[],
  span: Span,
  index: number,
  replicates: number,
  choice: ChartChoice,
): SegmentChart {
  const { from, to, why } = span;
  const tests = all.slice(from, to + 1);
  const found = segmentLimits(tests, span, replicates, choice);
  const segment = { index, from, to, why, limits: found };
  const remembering = found.determinable ? memory(tests, from, found.limits, choice) : { ewma: [], cusum: [] };
  return { segment, points: pointsOf(tests, segment, choice), ...remembering };
}
