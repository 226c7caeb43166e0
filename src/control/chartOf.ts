import { type Determination, determined, undetermined } from "../record/determination.ts";
import { capabilityOf } from "./capability/capability.ts";
import { type ChartChoice, USUAL_CHOICE } from "./chartChoice.ts";
import { SPREAD_RULES } from "./chartKind.ts";
import { type ChartPoint, type Plotted, plottedPoints } from "./chartPoint.ts";
import type { ChartedPoint, ControlChart } from "./controlChart.ts";
import { forecastOf } from "./drift/forecast.ts";
import type { ChartLimits } from "./limits/chartLimits.ts";
import { fitsChart } from "./limits/frozenLimits.ts";
import { reckoned, type SegmentLimits } from "./limits/segment.ts";
import { spansBetween } from "./limits/spans.ts";
import { segmentChart } from "./segmentChart.ts";

const NO_TESTS: SegmentLimits = { determinable: false, reason: "there are no tests to chart" };

function newestLines(found: SegmentLimits, unit: string) {
  const line = (of: (limits: ChartLimits) => number): Determination =>
    found.determinable ? determined(of(found.limits), unit) : undetermined(found.reason);
  return {
    centre: line(({ centre }) => centre),
    lower: line(({ lower }) => lower),
    upper: line(({ upper }) => upper),
    sigma: line(({ sigma }) => sigma),
  };
}

function prospects(
  tests: readonly Plotted[],
  points: readonly ChartedPoint[],
  replicates: number,
  choice: ChartChoice,
) {
  const { kept, values, spreads } = reckoned(tests, choice);
  const portions = kept.map((i) => tests[i]?.portions ?? []);
  const signals = points.some((point) => !point.leftOut && point.signals.length > 0);
  const asked = { kind: choice.chart, replicates, portions, spreads, signals };
  return {
    capability: capabilityOf(asked, choice.tolerance),
    forecast: forecastOf(values, choice.tolerance, choice.forecast),
  };
}

function notesOn(newest: SegmentLimits, replicates: number, choice: ChartChoice): string[] {
  const unfit = choice.frozen.filter((one) => !fitsChart(one, choice.chart, replicates)).length;
  const origin = newest.determinable ? newest.origin : null;
  const drawn = origin?.from === "baseline" ? origin.indices.length : choice.baseline.tests;
  return [
    ...(unfit > 0 ? [`${unfit} frozen for another kind of chart or another number of portions: not used`] : []),
    ...(drawn < choice.baseline.tests
      ? [`the limits come from ${drawn} of ${choice.baseline.tests} tests and still move`]
      : []),
  ];
}

/**
 * The control chart of one value of a product, with all that is said of it: limits, signals, weighted average,
 * cumulative sums, capability and forecast.
 *
 * Tests are put in the order of their moments. A logged change parts them in segments with limits of their own; rules,
 * averages and sums start anew there, capability and forecast are of the newest segment. Tests without a value are kept
 * apart with their reasons; everything that can't be told is a reason.
 *
 * @param points of one product, line and station; the chart of one value, all in the unit that the choice names
 * @param choice what departs from `USUAL_CHOICE`
 * @source NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2; see each part for its own
 */
export function chartOf(points: readonly ChartPoint[], choice: Partial<ChartChoice> = {}): ControlChart {
  const full: ChartChoice = { ...USUAL_CHOICE, ...choice };
  const { plotted, setAside, replicates } = plottedPoints(points, full.chart);
  const spans = spansBetween(
    plotted.map(({ at }) => at),
    full.restarts,
  );
  const charts = spans.map((span, i) => segmentChart(plotted, span, i, replicates, full));
  const newest = charts.at(-1);
  const limits = newest?.segment.limits ?? NO_TESTS;
  return {
    chart: full.chart,
    unit: full.unit,
    replicates,
    spreadName: SPREAD_RULES[full.chart].words,
    ...newestLines(limits, full.unit),
    points: charts.flatMap((one) => one.points),
    setAside,
    segments: charts.map(({ segment }) => segment),
    ewma: { ...full.ewma, points: charts.flatMap(({ ewma }) => ewma) },
    cusum: { ...full.cusum, points: charts.flatMap(({ cusum }) => cusum) },
    ...prospects(plotted.slice(newest?.segment.from ?? 0), newest?.points ?? [], replicates, full),
    notes: notesOn(limits, replicates, full),
  };
}
