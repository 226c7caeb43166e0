import type { GridCurve, GridLine, SizeModel } from "./model.ts";
import { normalEquations } from "./normalEquations.ts";
import type { FitPoint } from "./points.ts";
import { straightLine } from "./straightLine.ts";

/** A line and the sum of squared residuals, in % points, of its curve from the points. */
export interface Candidate {
  readonly line: GridLine;
  readonly sum: number;
}

/** A line weighed against the points. */
export const candidate = (points: readonly FitPoint[], curve: GridCurve, line: GridLine): Candidate => ({
  line,
  sum: normalEquations(points, curve, line).sum,
});

/** The candidate with the smallest sum, the first of equals; null of none. */
export const closest = (candidates: readonly Candidate[]): Candidate | null =>
  candidates.reduce<Candidate | null>((best, each) => (best && best.sum <= each.sum ? best : each), null);

/** From a curve over four decades of size to one within a single sieve step. */
const SLOPES = [0.5, 1.5, 4, 12] as const;

/** So many sieves are close enough for a start. */
const ENOUGH_SIZES = 24;

const spreadOut = (points: readonly FitPoint[]): readonly FitPoint[] => {
  const every = Math.ceil(points.length / ENOUGH_SIZES);
  return points.filter((_, i) => i % every === 0);
};

/** The straight line of 5 to 95 % passing; with too few points there, the line through all of them. */
function gridStart(model: SizeModel, points: readonly FitPoint[]): GridLine | null {
  const middle = points.filter(({ passingPct }) => passingPct >= 5 && passingPct <= 95);
  return straightLine(model, middle) ?? straightLine(model, points);
}

/**
 * Where least squares may start: the straight line on the model's grid (CP-11) and, because a gap-graded product can have
 * a second minimum that the line does not lead to, curves of four fixed slopes, each with its size at the sieve (of at most
 * 24) where it comes closest to all points.
 */
export function startingLines(model: SizeModel, curve: GridCurve, points: readonly FitPoint[]): readonly Candidate[] {
  const line = gridStart(model, points);
  const others = SLOPES.map((slope) =>
    closest(spreadOut(points).map(({ lnSizeUm }) => candidate(points, curve, { lnSizeUm, slope }))),
  );
  return [line && candidate(points, curve, line), ...others].filter((start) => start !== null);
}
