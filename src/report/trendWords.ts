import type { Capability } from "../control/capability/capability.ts";
import type { CapabilityIndex } from "../control/capability/indices.ts";
import type { ControlChart, Segment } from "../control/controlChart.ts";
import type { Forecast } from "../control/drift/forecast.ts";
import { significant } from "../grading/rounding.ts";
import { determined } from "../record/determination.ts";
import type { IndexRow } from "../record/indexRow.ts";
import type { Product } from "../record/product.ts";
import type { LineEvent } from "../shift/lineState.ts";
import type { LimitsFrozen } from "../shift/trend.ts";
import { boundText, driftSentence, driftsOf, reachWords } from "../shift/trendDrift.ts";
import type { Figure } from "../shift/trendFigure.ts";
import { dayText, figure, shortDay } from "../words/figures.ts";
import { say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { valueText } from "./figures.ts";
import { chartText } from "./trendFigures.ts";

/** A figure with its unit, as everywhere. */
export const figureText = (found: number, unit: string): string => valueText(determined(found, unit));

/** What was logged of a line: what it was in the words of the program, the rest as it was written. */
export const changeText = ({ what, detail }: Pick<LineEvent, "what" | "detail">): string =>
  detail === "" ? spoken(what) : `${spoken(what)}: ${detail}`;

/** A bound of the product's, with its unit. */
export const limitText = (bound: number, unit: string): string => figure(boundText(bound, unit));

/** "limits 690 um to 790 um", "at most 2"; nothing where the product sets none. */
export function allowedWords({ min, max, unit }: Figure): string {
  if (min !== null && max !== null) return say`${limitText(min, unit)} to ${limitText(max, unit)}`;
  if (min !== null) return say`at least ${limitText(min, unit)}`;
  return max === null ? say`no limit` : say`at most ${limitText(max, unit)}`;
}

/** Who froze the limits of a stretch. */
function frozenWords(frozen: readonly LimitsFrozen[], firstTestId: string, sinceAt: string): string {
  const entry = frozen.findLast(({ first, sinceAt: at }) => first.testId === firstTestId && at === sinceAt);
  return entry === undefined ? say`frozen` : say`frozen ${dayText(entry.at)} by ${entry.by}: ${entry.reason}`;
}

/** Where the limits of a stretch come from, or why there are none. */
export function originWords({ limits }: Segment, chart: ControlChart, frozen: readonly LimitsFrozen[]): string {
  if (!limits.determinable) return say`no control limits: ${spoken(limits.reason)}`;
  const { origin } = limits;
  if (origin.from === "frozen") return frozenWords(frozen, origin.frozen.firstTestId, origin.frozen.sinceAt);
  const { indices, outliers } = origin;
  const on = (index: number | undefined) => shortDay(chart.points[index ?? -1]?.at ?? "");
  const [first, last] = [on(indices[0]), on(indices.at(-1))];
  return outliers.length === 0
    ? say`from ${indices.length} tests, ${first} to ${last}`
    : say`from ${indices.length} tests, ${first} to ${last}, ${outliers.length} of them outside`;
}

/** "centre 742 um, control limits 703 um to 781 um (from 25 tests, 11-02 to 11-06)" */
export function limitsWords(segment: Segment, chart: ControlChart, frozen: readonly LimitsFrozen[]): string {
  const origin = originWords(segment, chart, frozen);
  if (!segment.limits.determinable) return origin;
  const { centre, lower, upper } = segment.limits.limits;
  const shown = (found: number) => chartText(found, chart);
  return say`centre ${shown(centre)}, control limits ${shown(lower)} to ${shown(upper)} (${origin})`;
}

const three = (found: number): string => figure(significant(found, 3));

const indexWords = (name: string, index: CapabilityIndex): string =>
  index.determinable ? say`${name} ${three(index.value)} (${three(index.lower)} to ${three(index.upper)})` : "";

/** "Cp 1.32 (1.05 to 1.60), Cpk ..., Pp ..., Ppk ...; 48 tests, 95 %"; or why there is none. */
export function capabilityWords({ cp, cpk, pp, ppk, tests, confidence }: Capability): string {
  const told = [indexWords("Cp", cp), indexWords("Cpk", cpk), indexWords("Pp", pp), indexWords("Ppk", ppk)].filter(
    (words) => words !== "",
  );
  if (told.length > 0) return say`${told.join(", ")}; ${tests} tests, bounds ${confidence * 100} %`;
  return cpk.determinable ? "" : say`no capability: ${spoken(cpk.reason)}`;
}

/** The same for one narrow line: bounds only of the two indices that see both spread and place. */
export function shortCapabilityWords({ cp, cpk, pp, ppk }: Capability): string {
  if (!cpk.determinable) return say`no capability: ${spoken(cpk.reason)}`;
  const short = (name: string, index: CapabilityIndex) => (index.determinable ? `${name} ${three(index.value)}` : "");
  const told = [short("Cp", cp), indexWords("Cpk", cpk), short("Pp", pp), indexWords("Ppk", ppk)];
  return told.filter((words) => words !== "").join("  ");
}

/** What the drift is and where it leads: "rising 1.2 um a test (p 0.003); the limit 790 um is reached in about 12 tests". */
export function forecastWords({ unit }: Pick<Figure, "unit">, forecast: Forecast): string {
  const { trend, reach } = forecast;
  if (!trend.determinable) {
    const why = spoken(trend.reason);
    return trend.reason.startsWith("no drift") ? why : say`no drift told: ${why}`;
  }
  const slope = `${figure(significant(Math.abs(trend.slopePerTest), 2))}${unit === "1" ? "" : ` ${unit}`}`;
  const p = trend.p < 0.001 ? say`p below 0.001` : `p ${figure(trend.p.toFixed(3))}`;
  const head = trend.direction === "rising" ? say`rising ${slope} a test (${p})` : say`falling ${slope} a test (${p})`;
  if (!reach.determinable) return `${head}; ${spoken(reach.reason)}`;
  return say`${head}; the limit ${limitText(reach.limit, unit)} is reached ${spoken(reachWords(forecast) ?? "")}`;
}

/**
 * What a shift should know of a product's drifts, in words: "TH-0510 d50 rises; the limit 790 um is reached in about 12
 * tests (8 to 25)". Silent where no slope is more than chance, or no limit is near.
 *
 * @param rows any tests, in any order; those of other products are left out
 * @param events what was logged of the lines: a slope is drawn from the tests after the last adjustment
 */
export const driftWords = (
  product: Product,
  rows: readonly IndexRow[],
  events: readonly LineEvent[],
): readonly string[] =>
  driftsOf(product, rows, events).flatMap((drift) => {
    const sentence = driftSentence(drift);
    if (sentence === null) return [];
    const words = spoken(sentence);
    return [drift.alone ? `${product.code} ${words}` : say`${product.code} on ${drift.line} ${words}`];
  });
