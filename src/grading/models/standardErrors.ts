import type { Fit } from "../../record/product.ts";
import type { Estimate, GridCurve, GridLine, SizeModel } from "./model.ts";
import { inverse, normalEquations } from "./normalEquations.ts";
import { FEWEST_POINTS, type FitPoint } from "./points.ts";

const PARAMETERS = 2;

/** For the straight-line rule the grid's own v is what was fitted; it stands where the % stands otherwise. */
const theGridItself: GridCurve = { passingPctAt: (v) => v, risePctAt: () => 1 };

const onGrid = (model: SizeModel, points: readonly FitPoint[]): readonly FitPoint[] =>
  points.flatMap((point) => {
    const v = model.gridY(point.passingPct);
    return v === null ? [] : [{ lnSizeUm: point.lnSizeUm, passingPct: v }];
  });

/**
 * Size and slope with their standard errors: covariance `s^2 (JtJ)^-1`, `s^2 = sum r^2 / (N - 2)`, J and r those of the
 * rule (in % points for `least-squares`, in v for `line`), taken in ln size and ln slope and turned back to first
 * order: error of the size = size x error of ln size. It speaks of the scatter about the curve alone, and takes the
 * points as independent, which cumulative % are only roughly; read it as the least the error can be.
 * @returns null if the points do not tell the two parameters apart
 * @source Bates and Watts, Nonlinear Regression Analysis (1988) ch. 2 (memory); the same as scipy's curve_fit without sigma
 */
export function estimateOf(rule: Fit, model: SizeModel, points: readonly FitPoint[], line: GridLine): Estimate | null {
  const equations =
    rule === "line"
      ? normalEquations(onGrid(model, points), theGridItself, line)
      : normalEquations(points, model, line);
  const inv = inverse(equations, 0);
  if (!inv || points.length < FEWEST_POINTS) return null;
  const scatter = equations.sum / (points.length - PARAMETERS);
  const sizeUm = Math.exp(line.lnSizeUm);
  return {
    sizeUm,
    sizeErrorUm: sizeUm * Math.sqrt(scatter * inv[0]),
    slope: line.slope,
    slopeError: line.slope * Math.sqrt(scatter * inv[2]),
  };
}
