import { type Forecast, USUAL_FORECAST } from "../control/drift/forecast.ts";
import type { Product } from "../record/product.ts";
import { type TrendRows, type TrendSwitches, trendChartOf, USUAL_SWITCHES } from "./trend.ts";
import { type Figure, figuresOf } from "./trendFigure.ts";

/** A limited figure and where it is going. */
export interface FigureForecast {
  readonly figure: Figure;
  readonly forecast: Forecast;
}

/** One limited figure in small: enough to see whether it is the one that drifts. */
export interface SmallTrend extends FigureForecast {
  /** Oldest first. */
  readonly values: readonly number[];
  /** Of the newest test; null while none has the figure. */
  readonly newest: number | null;
  readonly against: "within" | "above" | "below" | null;
  /** Whether the run rules see something at the newest test. */
  readonly signal: boolean;
}

function againstLimits(newest: number | null, { min, max }: Figure): SmallTrend["against"] {
  if (newest === null) return null;
  if (max !== null && newest > max) return "above";
  return min !== null && newest < min ? "below" : "within";
}

/**
 * All limited figures of a product on a line. Since they are looked at together each drift must be surer than one alone: the
 * significance is shared out among them (Bonferroni).
 */
export function smallTrends(
  product: Product,
  rows: TrendRows,
  line: string,
  switches: TrendSwitches = USUAL_SWITCHES,
): readonly SmallTrend[] {
  const limited = figuresOf(product).filter(({ standing }) => standing === "limited");
  const significance = USUAL_FORECAST.significance / Math.max(1, limited.length);
  const choice = { forecast: { ...USUAL_FORECAST, significance } };
  return limited.map((figure) => {
    const { points, forecast } = trendChartOf(rows, figure, line, switches, choice);
    const last = points.at(-1);
    const newest = last?.value ?? null;
    return {
      figure,
      forecast,
      values: points.map(({ value }) => value),
      newest,
      against: againstLimits(newest, figure),
      signal: (last?.signals.length ?? 0) > 0,
    };
  });
}
