import { levenbergMarquardt } from "./levenbergMarquardt.ts";
import type { GridCurve, GridLine, SizeModel } from "./model.ts";
import type { FitPoint } from "./points.ts";
import { candidate, closest, startingLines } from "./startingLines.ts";

/**
 * Non-linear least squares on % passing: Levenberg-Marquardt from every starting line, the closest end kept.
 * @param curve what is fitted, the model's own curve unless said otherwise
 * @returns null if nothing settles, or if a start that did not settle was closer already than whatever did
 */
export function leastSquares(model: SizeModel, points: readonly FitPoint[], curve: GridCurve = model): GridLine | null {
  const starts = startingLines(model, curve, points);
  const ends = starts.map(({ line }) => levenbergMarquardt(points, curve, line)).filter((end) => end !== null);
  const best = closest(ends.map((end) => candidate(points, curve, end)));
  const missed = best && starts.some((start) => start.sum < best.sum * (1 - 1e-9));
  return missed ? null : (best?.line ?? null);
}
