import type { GridLine, SizeModel } from "./model.ts";
import type { FitPoint } from "./points.ts";

/** A point's place on a model's grid; points without one (0 %, 100 %) are left out. */
const placed = (model: SizeModel, points: readonly FitPoint[]) =>
  points.flatMap((point) => {
    const v = model.gridY(point.passingPct);
    return v === null ? [] : [{ u: point.lnSizeUm, v }];
  });

/**
 * Straight line through the points on the model's own grid, by ordinary least squares on the transformed %
 * (v over u = ln x, each point the same weight): `slope = sum (u - ubar)(v - vbar) / sum (u - ubar)^2`,
 * `lnSizeUm = ubar - vbar/slope`.
 * @returns null where there is no rising line: fewer than two sizes, or a slope that is not above 0
 * @source ordinary least squares; NIST/SEMATECH e-Handbook 4.4.3.1 (memory)
 */
export function straightLine(model: SizeModel, points: readonly FitPoint[]): GridLine | null {
  const places = placed(model, points);
  const meanU = places.reduce((sum, { u }) => sum + u, 0) / places.length;
  const meanV = places.reduce((sum, { v }) => sum + v, 0) / places.length;
  const spreadU = places.reduce((sum, { u }) => sum + (u - meanU) ** 2, 0);
  const slope = places.reduce((sum, { u, v }) => sum + (u - meanU) * (v - meanV), 0) / spreadU;
  return slope > 0 && Number.isFinite(slope) ? { lnSizeUm: meanU - meanV / slope, slope } : null;
}
