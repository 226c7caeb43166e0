import { levenbergMarquardt } from "./levenbergMarquardt.ts";
import type { GridCurve, GridLine, SizeModel } from "./model.ts";
import type { FitPoint } from "./points.ts";
import { type Candidate, candidate, closest, startingLines } from "./startingLines.ts";

/** Whether a start comes closer to the points than the best end, by more than rounding: then that end is not the best. */
export const isMissed = (best: Candidate, starts: readonly Candidate[]): boolean =>
  starts.some((start) => start.sum < best.sum * (1 - 1e-9));

/** Levenberg-Marquardt from every start, the closest end kept; null as for `leastSquares`. */
export function closestEnd(
  points: readonly FitPoint[],
  curve: GridCurve,
  starts: readonly Candidate[],
): GridLine | null {
  const ends = starts.map(({ line }) => levenbergMarquardt(points, curve, line)).filter((end) => end !== null);
  const best = closest(ends.map((end) => candidate(points, curve, end)));
  return best && !isMissed(best, starts) ? best.line : null;
}

/**
 * Non-linear least squares on % passing for a smooth model, from every starting line; the closest end is kept.
 * @returns null if nothing settles, or if a start that did not settle was closer already than whatever did
 */
export const leastSquares = (model: SizeModel, points: readonly FitPoint[]): GridLine | null =>
  closestEnd(points, model, startingLines(model, model, points));
