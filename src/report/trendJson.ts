import type { ControlChart } from "../control/controlChart.ts";
import type { Determination } from "../record/determination.ts";
import type { Product } from "../record/product.ts";
import type { LineEvent } from "../shift/lineState.ts";
import { changeWords } from "../shift/trend.ts";
import type { Figure } from "../shift/trendFigure.ts";

/** What a trend was asked of. */
export interface TrendAsked {
  readonly product: Product;
  readonly line: string;
  readonly figure: Figure;
  /** What is marked on the chart. */
  readonly marks: readonly LineEvent[];
  /** What else whoever reads it must know. */
  readonly notes: readonly string[];
}

const figureOf = (found: Determination): number | null => (found.determinable ? found.value : null);

/** A trend as other programs read it; numbers in full, null where there is none (`segments` says why). */
export function trendJson(chart: ControlChart, { product, line, figure, marks, notes }: TrendAsked) {
  const { points, centre, lower, upper, sigma, ewma, cusum, capability, forecast, segments, setAside } = chart;
  return {
    schema: "sievewright.trend/1",
    product: product.code,
    revision: product.revision,
    line,
    value: figure.on,
    unit: chart.unit,
    min: figure.min,
    max: figure.max,
    points: points.map(({ at, testId, value, spread, segment, inBaseline, leftOut, signals }) => ({
      at,
      testId,
      value,
      movingRange: spread,
      segment,
      inBaseline,
      leftOut,
      signals: signals.map(({ rule, side, words }) => ({ rule, side, words })),
    })),
    centre: figureOf(centre),
    lower: figureOf(lower),
    upper: figureOf(upper),
    sigma: figureOf(sigma),
    ewma,
    cusum,
    capability,
    forecast,
    segments,
    setAside,
    changes: marks.map((mark) => ({ at: mark.at, what: mark.what, words: changeWords(mark) })),
    notes: [...notes, ...chart.notes],
  };
}
