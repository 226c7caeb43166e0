import type { Forecast } from "../control/drift/forecast.ts";
import type { IndexRow } from "../record/indexRow.ts";
import type { Product } from "../record/product.ts";
import { nominalText } from "../series/apertureText.ts";
import type { LineEvent } from "./lineState.ts";
import { type FigureForecast, smallTrends } from "./trendSmall.ts";

/** "790 um", "60 %", "2" */
export function boundText(bound: number, unit: string): string {
  if (unit === "um") return nominalText(bound);
  return unit === "1" ? `${bound}` : `${bound} ${unit}`;
}

const whole = (tests: number): number => Math.max(1, Math.round(tests));

/** "in about 12 tests (8 to 25)"; null where no limit is foretold. */
export function reachWords({ reach }: Forecast): string | null {
  if (!reach.determinable) return null;
  const { tests, earliest, latest } = reach;
  const about = whole(tests);
  const when = about === 1 ? "in about 1 test" : `in about ${about} tests`;
  if (latest === null) return `${when} (${whole(earliest)} or more)`;
  return whole(earliest) === whole(latest) ? when : `${when} (${whole(earliest)} to ${whole(latest)})`;
}

/** "d50 rises; the limit 790 um is reached in about 12 tests (8 to 25)"; null where nothing is foretold. */
export function driftSentence({ figure, forecast }: FigureForecast): string | null {
  const { trend, reach } = forecast;
  const when = reachWords(forecast);
  if (!trend.determinable || !reach.determinable || when === null) return null;
  const limit = boundText(reach.limit, figure.unit);
  return trend.direction === "rising"
    ? `${figure.label} rises; the limit ${limit} is reached ${when}`
    : `${figure.label} falls; the limit ${limit} is reached ${when}`;
}

/** A limit farther away than this many tests is no matter for a shift. */
const SHIFT_HORIZON_TESTS = 50;

const isNear = ({ forecast: { reach } }: FigureForecast): boolean =>
  reach.determinable && reach.tests <= SHIFT_HORIZON_TESTS;

/** Every drift of a product on its lines that comes to a limit within 50 tests, the nearest first. */
export function driftsOf(product: Product, rows: readonly IndexRow[], events: readonly LineEvent[]) {
  const own = rows
    .filter((row) => row.product === product.code)
    .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at));
  const lines = [...new Set(own.map(({ line }) => line))];
  const found = lines.flatMap((line) => {
    const ofLine = { rows: own.filter((row) => row.line === line), events, frozen: [] };
    return smallTrends(product, ofLine, line).map((one) => ({ ...one, line, alone: lines.length === 1 }));
  });
  const testsTo = ({ forecast: { reach } }: FigureForecast) => (reach.determinable ? reach.tests : 0);
  return found.filter(isNear).toSorted((a, b) => testsTo(a) - testsTo(b));
}
