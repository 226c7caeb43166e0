import type { ChartChoice } from "./chartChoice.ts";
import { SPREAD_RULES } from "./chartKind.ts";
import type { Plotted } from "./chartPoint.ts";
import type { ChartedPoint, Placed, Segment } from "./controlChart.ts";
import type { ChartLimits, Lines } from "./limits/chartLimits.ts";
import { segmentLimits, spreadsOf } from "./limits/segment.ts";
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

function placed<T extends Sided>(
  points: readonly T[],
  from: number,
  rule: "ewma" | "cusum",
  words: (side: "above" | "below") => string,
): Placed<T>[] {
  return points.map((point, i) => {
    const index = from + i;
    const { side } = point;
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

function memory(values: readonly number[], from: number, limits: ChartLimits, choice: ChartChoice) {
  const sums = cusumOf(values, limits, choice.cusum).map((point) => ({
    ...point,
    since: point.since === null ? null : from + point.since,
  }));
  return {
    ewma: placed(ewmaOf(values, limits, choice.ewma), from, "ewma", averageWords),
    cusum: placed(sums, from, "cusum", sumWords),
  };
}

function signalsAt(tests: readonly Plotted[], limits: ChartLimits | null, choice: ChartChoice): Signal[][] {
  const at: Signal[][] = tests.map(() => []);
  if (!limits) return at;
  const values = tests.map(({ value }) => value);
  for (const signal of runSignals(values, limits, choice.rules)) at[signal.index]?.push(signal);
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
  const values = tests.map(({ value }) => value);
  const remembering = found.determinable ? memory(values, from, found.limits, choice) : { ewma: [], cusum: [] };
  return { segment, points: pointsOf(tests, segment, choice), ...remembering };
}
