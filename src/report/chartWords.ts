import { forecastOf } from "../control/drift/forecast.ts";
import { determined } from "../record/determination.ts";
import { say } from "../words/say.ts";
import { apertureText, pctText, valueText } from "./figures.ts";

const NO_LIMIT = { min: null, max: null };

/** Whether values drift, by the same test as the trends: chance alone counts for nothing. */
function courseText(values: readonly number[]): string {
  const { trend } = forecastOf(values, NO_LIMIT);
  if (!trend.determinable) return say`no drift`;
  return trend.direction === "rising" ? say`rising` : say`falling`;
}

/**
 * A chart of values over time as one sentence, for those who don't see it: range, latest, course.
 *
 * @param values in the order of their tests, the newest last
 * @returns "" without a value
 * @example seriesText([700, 742], "um") // => "from 700 um to 742 um, latest 742 um, no drift"
 */
export function seriesText(values: readonly number[], unit: string): string {
  const latest = values.at(-1);
  if (latest === undefined) return "";
  const shown = (value: number) => valueText(determined(value, unit));
  const [least, most] = [shown(Math.min(...values)), shown(Math.max(...values))];
  return say`from ${least} to ${most}, latest ${shown(latest)}, ${courseText(values)}`;
}

interface CurvePoint {
  readonly apertureUm: number;
  readonly passingPct: number | null;
}

/**
 * A passing curve as one sentence, coarsest sieve first.
 *
 * @returns "" for fewer than two points
 * @example curveText([{ apertureUm: 1400, passingPct: 98.1 }, { apertureUm: 710, passingPct: 42 }])
 * // => "passing curve: 98.1 % at 1.40 mm, 42.0 % at 710 um"
 */
export function curveText(points: readonly CurvePoint[]): string {
  const told = points.flatMap(({ apertureUm, passingPct }) =>
    passingPct === null || apertureUm === 0 ? [] : [say`${pctText(passingPct)} % at ${apertureText(apertureUm)}`],
  );
  return told.length < 2 ? "" : say`passing curve: ${told.join(", ")}`;
}

/** Bars side by side as one sentence: each with its name, in their order. */
export const barsText = (caption: string, bars: readonly (readonly [name: string, pct: number])[]): string =>
  `${caption}: ${bars.map(([name, pct]) => `${name} ${pctText(pct)} %`).join(", ")}`;
