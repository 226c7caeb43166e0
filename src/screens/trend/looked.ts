import type { ControlChart } from "../../control/controlChart.ts";
import { remembered } from "../../grading/remembered.ts";
import type { IndexRow } from "../../record/indexRow.ts";
import type { Product } from "../../record/product.ts";
import type { LineEvent } from "../../shift/lineState.ts";
import { marksOf, trendChartOf } from "../../shift/trend.ts";
import { type Figure, figuresOf, firstFigure } from "../../shift/trendFigure.ts";
import { windowOf } from "../../shift/trendWindow.ts";
import type { TrendRead } from "../../store/trendReading.ts";
import type { App } from "../place.ts";
import { here } from "../room.ts";
import type { TrendPlace } from "./places.ts";
import { productHere } from "./trendPlace.ts";

/** What is seen of a trend just now. */
export interface Looked {
  readonly product: Product;
  readonly figure: Figure;
  readonly figures: readonly Figure[];
  readonly chart: ControlChart;
  /** Rows of the chart's points, in their order. */
  readonly rows: readonly IndexRow[];
  readonly stretch: { readonly from: number; readonly to: number };
  /** Place of the test in hand among the points. */
  readonly cursor: number;
  readonly marks: readonly LineEvent[];
}

const figuresIn = remembered(figuresOf);
const chartsOf = remembered((_read: TrendRead) => new Map<string, ControlChart>());

/** The chart of a figure, worked out once for the same tests, figure and switches. */
function chartIn(place: TrendPlace, read: TrendRead, figure: Figure): ControlChart {
  const charts = chartsOf(read);
  const key = JSON.stringify([figure, place.switches]);
  const known = charts.get(key);
  if (known) return known;
  const chart = trendChartOf(read, figure, place.line ?? "", place.switches);
  charts.set(key, chart);
  return chart;
}

const rowsById = remembered((read: TrendRead) => new Map(read.rows.map((row) => [row.testId, row])));

export const figuresHere = (app: App): readonly Figure[] => {
  const product = productHere(app, here(app, "trend").product);
  return product ? figuresIn(product) : [];
};

export function figureHere(app: App): Figure | undefined {
  const figures = figuresHere(app);
  return figures.find(({ on }) => on === here(app, "trend").on) ?? firstFigure(figures);
}

/** Everything that the pages of a trend draw from; null while the tests have not been read. */
export function looked(app: App): Looked | null {
  const place = here(app, "trend");
  const product = productHere(app, place.product);
  const figure = figureHere(app);
  if (place.read === null || product === undefined || figure === undefined) return null;
  const chart = chartIn(place, place.read, figure);
  const byId = rowsById(place.read);
  const rows = chart.points.flatMap(({ testId }) => byId.get(testId) ?? []);
  const found = chart.points.findIndex(({ testId }) => testId === place.cursor);
  return {
    product,
    figure,
    figures: figuresIn(product),
    chart,
    rows,
    stretch: windowOf(rows, place.zoom, place.beyond, app.station),
    cursor: found < 0 ? chart.points.length - 1 : found,
    marks: marksOf(place.read.events, place.line ?? ""),
  };
}
