import type { Tolerance } from "../capability/indices.ts";
import { mannKendall } from "./mannKendall.ts";
import { levelAtNewest, theilSen } from "./theilSen.ts";

type Absent = { readonly determinable: false; readonly reason: string };

/** A slope that is more than chance, in the unit of the values per test. */
export interface Trend {
  readonly determinable: true;
  readonly direction: "rising" | "falling";
  readonly slopePerTest: number;
  readonly lowerPerTest: number;
  readonly upperPerTest: number;
  /** Share of trendless sets that look as steady as this one, or steadier. */
  readonly p: number;
  /** Where the line stands at the newest test. */
  readonly level: number;
}

/** When the line comes to a limit, in tests from the newest on. */
export interface Reach {
  readonly determinable: true;
  readonly side: "min" | "max";
  readonly limit: number;
  readonly tests: number;
  readonly earliest: number;
  /** Null: by the flattest slope that is still likely, never. */
  readonly latest: number | null;
}

export interface Forecast {
  /** Newest tests that it was drawn from. */
  readonly tests: number;
  readonly trend: Trend | Absent;
  readonly reach: Reach | Absent;
}

export interface ForecastChoice {
  /** Newest tests to draw a slope from, and the fewest that allow one. */
  readonly newest: number;
  readonly fewest: number;
  /** A trend counts when chance makes one like it more seldom than this. */
  readonly significance: number;
  readonly confidence: number;
  /** A limit farther away than so many times the tests that the slope comes from is not foretold. */
  readonly horizon: number;
}

/** The 50 newest tests, 10 at least, 5 %, and no farther ahead than five times that: our choice, no source. */
export const USUAL_FORECAST: ForecastChoice = {
  newest: 50,
  fewest: 10,
  significance: 0.05,
  confidence: 0.95,
  horizon: 5,
};

const absent = (reason: string): Absent => ({ determinable: false, reason });

function trendOf(values: readonly number[], { fewest, significance, confidence }: ForecastChoice): Trend | Absent {
  if (values.length < fewest) return absent(`a slope needs ${fewest} tests, there are ${values.length}`);
  const { p, score } = mannKendall(values);
  if (!(p < significance)) return absent(`no drift: chance alone does this (p ${p.toFixed(2)})`);
  const { slope, lower, upper } = theilSen(values, confidence);
  if (slope === 0 || slope > 0 !== score > 0) return absent("no drift: most tests found the same");
  const direction = slope > 0 ? "rising" : "falling";
  const level = levelAtNewest(values, slope);
  return { determinable: true, direction, slopePerTest: slope, lowerPerTest: lower, upperPerTest: upper, p, level };
}

function reachOf(values: readonly number[], trend: Trend, tolerance: Tolerance, horizon: number): Reach | Absent {
  const side = trend.direction === "rising" ? "max" : "min";
  const limit = tolerance[side];
  if (limit === null) return absent(`it is ${trend.direction} and there is no limit on that side`);
  const towards = Math.sign(trend.slopePerTest);
  if ((limit - trend.level) * towards <= 0) return absent("the line through the newest tests is at the limit already");
  const testsAt = (slope: number) => Math.max(0, (limit - levelAtNewest(values, slope)) / slope);
  const tests = testsAt(trend.slopePerTest);
  if (tests > horizon * values.length) return absent(`the limit is more than ${horizon * values.length} tests away`);
  const [flat, steep] = [trend.lowerPerTest, trend.upperPerTest].toSorted((a, b) => towards * (a - b));
  const earliest = Math.min(tests, testsAt(steep ?? trend.slopePerTest));
  const likely = flat !== undefined && flat * towards > 0;
  return { determinable: true, side, limit, tests, earliest, latest: likely ? Math.max(tests, testsAt(flat)) : null };
}

/**
 * Whether values drift, and in about how many tests the line through them comes to a limit: Mann-Kendall says whether,
 * Theil and Sen how steeply. The range comes from the slope's confidence interval, each slope drawn through the middle
 * of the same values; it says nothing of the scatter of single tests about the line.
 *
 * @param values in the order of their tests, the newest last, since the last logged change
 * @returns a trend and a reach in tests, either of them a reason where there is none
 * @source P. K. Sen (1968) and H. B. Mann (1945), see `theilSen` and `mannKendall`
 */
export function forecastOf(
  values: readonly number[],
  tolerance: Tolerance,
  choice: ForecastChoice = USUAL_FORECAST,
): Forecast {
  const newest = values.slice(-choice.newest);
  const trend = trendOf(newest, choice);
  const reach = trend.determinable
    ? reachOf(newest, trend, tolerance, choice.horizon)
    : absent("without a drift no limit comes nearer");
  return { tests: newest.length, trend, reach };
}
