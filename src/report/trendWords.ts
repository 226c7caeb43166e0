import type { Capability } from "../control/capability/capability.ts";
import type { CapabilityIndex } from "../control/capability/indices.ts";
import type { ControlChart, Segment } from "../control/controlChart.ts";
import type { Forecast } from "../control/drift/forecast.ts";
import { significant } from "../grading/rounding.ts";
import { determined } from "../record/determination.ts";
import type { LimitsFrozen } from "../shift/trend.ts";
import { boundText, reachWords } from "../shift/trendDrift.ts";
import type { Figure } from "../shift/trendFigure.ts";
import { valueText } from "./figures.ts";
import { chartText } from "./trendFigures.ts";

/** A figure with its unit, as everywhere. */
export const figureText = (found: number, unit: string): string => valueText(determined(found, unit));

/** A moment without its year and seconds. */
export const shortMoment = (at: string): string => at.slice(5, 16).replace("T", " ");

/** "limits 690 um to 790 um", "at most 2"; nothing where the product sets none. */
export function allowedWords({ min, max, unit }: Figure): string {
  if (min !== null && max !== null) return `${boundText(min, unit)} to ${boundText(max, unit)}`;
  if (min !== null) return `at least ${boundText(min, unit)}`;
  return max === null ? "no limit" : `at most ${boundText(max, unit)}`;
}

/** Who froze the limits of a stretch. */
const frozenWords = (frozen: readonly LimitsFrozen[], firstTestId: string, sinceAt: string): string => {
  const entry = frozen.findLast(({ first, sinceAt: at }) => first.testId === firstTestId && at === sinceAt);
  return entry === undefined ? "frozen" : `frozen ${entry.at.slice(0, 10)} by ${entry.by}: ${entry.reason}`;
};

/** Where the limits of a stretch come from, or why there are none. */
export function originWords({ limits }: Segment, chart: ControlChart, frozen: readonly LimitsFrozen[]): string {
  if (!limits.determinable) return `no control limits: ${limits.reason}`;
  const { origin } = limits;
  if (origin.from === "frozen") return frozenWords(frozen, origin.frozen.firstTestId, origin.frozen.sinceAt);
  const at = (index: number | undefined) => chart.points[index ?? -1]?.at.slice(5, 10) ?? "";
  const { indices, outliers } = origin;
  const odd = outliers.length === 0 ? "" : `, ${outliers.length} of them outside`;
  return `from ${indices.length} tests, ${at(indices[0])} to ${at(indices.at(-1))}${odd}`;
}

/** "centre 742 um, control limits 703 um to 781 um (from 25 tests, 11-02 to 11-06)" */
export function limitsWords(segment: Segment, chart: ControlChart, frozen: readonly LimitsFrozen[]): string {
  const origin = originWords(segment, chart, frozen);
  if (!segment.limits.determinable) return origin;
  const { centre, lower, upper } = segment.limits.limits;
  const shown = (found: number) => chartText(found, chart);
  return `centre ${shown(centre)}, control limits ${shown(lower)} to ${shown(upper)} (${origin})`;
}

const indexWords = (name: string, index: CapabilityIndex): string =>
  index.determinable
    ? `${name} ${significant(index.value, 3)} (${significant(index.lower, 3)} to ${significant(index.upper, 3)})`
    : "";

/** "Cp 1.32 (1.05 to 1.60), Cpk ..., Pp ..., Ppk ...; 48 tests, 95 %"; or why there is none. */
export function capabilityWords({ cp, cpk, pp, ppk, tests, confidence }: Capability): string {
  const told = [indexWords("Cp", cp), indexWords("Cpk", cpk), indexWords("Pp", pp), indexWords("Ppk", ppk)].filter(
    (words) => words !== "",
  );
  if (told.length > 0) return `${told.join(", ")}; ${tests} tests, bounds ${confidence * 100} %`;
  return cpk.determinable ? "" : `no capability: ${cpk.reason}`;
}

/** The same for one narrow line: bounds only of the two indices that see both spread and place. */
export function shortCapabilityWords({ cp, cpk, pp, ppk }: Capability): string {
  if (!cpk.determinable) return `no capability: ${cpk.reason}`;
  const short = (name: string, index: CapabilityIndex) =>
    index.determinable ? `${name} ${significant(index.value, 3)}` : "";
  const told = [short("Cp", cp), indexWords("Cpk", cpk), short("Pp", pp), indexWords("Ppk", ppk)];
  return told.filter((words) => words !== "").join("  ");
}

/** What the drift is and where it leads: "rising 1.2 um a test (p 0.003); the limit 790 um is reached in about 12 tests". */
export function forecastWords({ unit }: Pick<Figure, "unit">, forecast: Forecast): string {
  const { trend, reach } = forecast;
  if (!trend.determinable) return trend.reason.startsWith("no drift") ? trend.reason : `no drift told: ${trend.reason}`;
  const slope = `${significant(Math.abs(trend.slopePerTest), 2)}${unit === "1" ? "" : ` ${unit}`}`;
  const p = trend.p < 0.001 ? "p below 0.001" : `p ${trend.p.toFixed(3)}`;
  const head = `${trend.direction} ${slope} a test (${p})`;
  if (!reach.determinable) return `${head}; ${reach.reason}`;
  return `${head}; the limit ${boundText(reach.limit, unit)} is reached ${reachWords(forecast) ?? ""}`;
}
