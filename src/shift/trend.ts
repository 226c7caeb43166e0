import { type ChartChoice, USUAL_CHOICE } from "../control/chartChoice.ts";
import { chartOf } from "../control/chartOf.ts";
import type { ChartPoint } from "../control/chartPoint.ts";
import type { ControlChart } from "../control/controlChart.ts";
import type { FrozenLimits } from "../control/limits/frozenLimits.ts";
import type { Restart } from "../control/limits/spans.ts";
import { undetermined } from "../record/determination.ts";
import { type IndexRow, isCounted, type Matter } from "../record/indexRow.ts";
import { isAdjustment, type LineEvent } from "./lineState.ts";
import { type Figure, figureIn } from "./trendFigure.ts";

export type LimitsFrozen = Extract<Matter, { kind: "limits frozen" }>;

/** What was read of one product on one line. */
export interface TrendRows {
  /** All tests, those that don't count among them, oldest first. */
  readonly rows: readonly IndexRow[];
  /** What was logged of the line, back to the first row, or to where the frozen limits began. */
  readonly events: readonly LineEvent[];
  /** Every freezing of control limits of this product on this line, in the order of the log. */
  readonly frozen: readonly LimitsFrozen[];
}

/** What whoever looks may switch. */
export interface TrendSwitches extends Pick<ChartChoice, "rules" | "spreadSignals" | "leftOut"> {
  /** Whether limits start anew after a logged change of the line; where the curve is drawn over other apertures they always do. */
  readonly restarts: boolean;
  /** Whether limits that were frozen are used. */
  readonly useFrozen: boolean;
}

/** The rules of convention CP-17; limits start anew after a change; what was frozen holds. */
export const USUAL_SWITCHES: TrendSwitches = {
  rules: USUAL_CHOICE.rules,
  spreadSignals: USUAL_CHOICE.spreadSignals,
  leftOut: [],
  restarts: true,
  useFrozen: true,
};

function pointOf(row: IndexRow, figure: Pick<Figure, "on" | "unit">): ChartPoint {
  const { at, testId } = row;
  if (isCounted(row)) return { at, testId, value: figureIn(row, figure) };
  const why = row.amended?.voided ? "the test is void" : "the test is invalid: it says nothing of the product";
  return { at, testId, value: undetermined(why) };
}

/** One figure of tests as points of a chart; a test that doesn't count, or lacks the figure, with its reason. */
export const trendPoints = (rows: readonly IndexRow[], figure: Pick<Figure, "on" | "unit">): ChartPoint[] =>
  rows.map((row) => pointOf(row, figure));

/** "feed rate: from 12 to 14 t/h" */
export const changeWords = ({ what, detail }: LineEvent): string => (detail === "" ? what : `${what}: ${detail}`);

/** The changes that limits start anew after: what was adjusted on purpose. */
export const restartsOf = (events: readonly LineEvent[], line: string): Restart[] =>
  events
    .filter((event) => event.line === line && isAdjustment(event))
    .map((event) => ({ at: event.at, why: changeWords(event) }));

/** Where the revision of the product changes what the curve is drawn over: what was found before is of other sizes. */
export const apertureChanges = (rows: readonly IndexRow[]): Restart[] =>
  rows.flatMap(({ at, apertures = "nominal" }, i) => {
    const before = rows[i - 1];
    return before === undefined || (before.apertures ?? "nominal") === apertures
      ? []
      : [{ at, why: `from here on the curve is drawn over ${apertures} apertures` }];
  });

/** What is marked on a trend: adjustments, changeovers, stops and starts; a new lot is no change of the process. */
export const marksOf = (events: readonly LineEvent[], line: string): readonly LineEvent[] =>
  events.filter((event) => event.line === line && event.what !== "new lot");

/** Limits as they were frozen, for the control chart. */
export const frozenLimits = ({ first, last, ...entry }: LimitsFrozen): FrozenLimits => ({
  chart: entry.chart,
  replicates: entry.replicates,
  centre: entry.centre,
  sigma: entry.sigma,
  tests: entry.tests,
  sinceAt: entry.sinceAt,
  firstTestId: first.testId,
  lastTestId: last.testId,
  leftOut: entry.leftOut,
});

/** Frozen limits of one figure, with who froze them. */
export const frozenOf = (frozen: readonly LimitsFrozen[], on: string): readonly LimitsFrozen[] =>
  frozen.filter((entry) => entry.on === on);

/**
 * The control chart of one figure of a product on a line: individuals, since the index keeps one number a test. Tests left
 * out when limits were frozen stay left out as long as those limits are used.
 *
 * @param rows tests of one product and line
 * @param choice what departs from the usual, such as how surely a drift must show
 */
export function trendChartOf(
  { rows, events, frozen }: TrendRows,
  figure: Figure,
  line: string,
  switches: TrendSwitches = USUAL_SWITCHES,
  choice: Partial<ChartChoice> = {},
): ControlChart {
  const used = switches.useFrozen ? frozenOf(frozen, figure.on) : [];
  return chartOf(trendPoints(rows, figure), {
    unit: figure.unit,
    tolerance: { min: figure.min, max: figure.max },
    rules: switches.rules,
    spreadSignals: switches.spreadSignals,
    leftOut: [...switches.leftOut, ...used.flatMap(({ leftOut }) => leftOut)],
    restarts: [...(switches.restarts ? restartsOf(events, line) : []), ...apertureChanges(rows)],
    frozen: used.map(frozenLimits),
    ...choice,
  });
}
