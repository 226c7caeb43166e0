import type { Fit } from "../../record/product.ts";
import type { GridLine, SizeModel } from "./model.ts";
import type { FitPoint } from "./points.ts";

export interface Quality {
  readonly r2: number;
  readonly rmsPct: number;
}

const mean = (numbers: readonly number[]): number => numbers.reduce((sum, each) => sum + each, 0) / numbers.length;

/**
 * How well a line describes the points it was fitted to. `r2 = 1 - sum (v - vhat)^2 / sum (v - vbar)^2` on the model's
 * own grid (below 0 where a horizontal line would do better there, which can happen to `least-squares`, as it does not
 * look at the grid). For `line` vhat is the straight line itself, so r2 is that of the regression; for `least-squares` it is
 * the curve, so a line that ends at 100 % goes no higher. `rmsPct`: root of the mean squared difference, observed - predicted passing, in % points; divided
 * by the number of points.
 */
export function qualityOf(rule: Fit, model: SizeModel, points: readonly FitPoint[], line: GridLine): Quality {
  const places = points.map((point) => ({
    observed: model.gridY(point.passingPct) ?? 0,
    predicted: line.slope * (point.lnSizeUm - line.lnSizeUm),
    passingPct: point.passingPct,
  }));
  const middle = mean(places.map(({ observed }) => observed));
  const top = (rule === "least-squares" ? model.topV : null) ?? Number.POSITIVE_INFINITY;
  const unexplained = mean(places.map(({ observed, predicted }) => (observed - Math.min(predicted, top)) ** 2));
  const total = mean(places.map(({ observed }) => (observed - middle) ** 2));
  const square = mean(places.map(({ predicted, passingPct }) => (passingPct - model.passingPctAt(predicted)) ** 2));
  return { r2: 1 - unexplained / total, rmsPct: Math.sqrt(square) };
}
