import type { GridCurve, GridLine } from "./model.ts";
import { type NormalEquations, normalEquations, type Step, step } from "./normalEquations.ts";
import type { FitPoint } from "./points.ts";

const MOST_TRIALS = 200;
/** Settled: a full undamped step would move size and slope by less than this part of themselves. */
const SETTLED = 1e-9;
/** Two sums of squares that differ by less than this part cannot be told apart in double precision. */
const ROUNDING = 1e-13;
const LEAST_DAMPING = 1e-12;

/** The step hardly moves, or what it would take off the sum of squares cannot be seen in double precision. */
function isSettled(move: Step, { ar, br, sum }: NormalEquations): boolean {
  const small = Math.abs(move.lnSize) < SETTLED && Math.abs(move.lnSlope) < SETTLED;
  return small || move.lnSize * ar + move.lnSlope * br <= Number.EPSILON * sum;
}

const moved = (line: GridLine, move: Step): GridLine => ({
  lnSizeUm: line.lnSizeUm + move.lnSize,
  slope: line.slope * Math.exp(move.lnSlope),
});

/**
 * Non-linear least squares on % passing: the line whose curve makes `sum (observed - predicted)^2` smallest, found by
 * Levenberg-Marquardt in ln size and ln slope with exact derivatives, from the given start. Each point has the same
 * weight. At most 200 trial steps, no clock: the same points always give the same line.
 * @returns null if it has not settled by then (the points do not pin both parameters down)
 * @source Marquardt, J. SIAM 11 (1963) 431 (memory); checked against scipy's curve_fit
 */
export function levenbergMarquardt(points: readonly FitPoint[], curve: GridCurve, start: GridLine): GridLine | null {
  let line = start;
  let here = normalEquations(points, curve, line);
  let damping = 1e-3;
  for (let trial = 0; trial < MOST_TRIALS; trial += 1) {
    const full = step(here, 0);
    if (full && isSettled(full, here)) return line;
    const damped = step(here, damping);
    if (!damped) return null;
    const nextLine = moved(line, damped);
    const next = normalEquations(points, curve, nextLine);
    const better = next.sum <= here.sum * (1 + ROUNDING);
    if (better) [line, here] = [nextLine, next];
    damping = better ? Math.max(damping / 10, LEAST_DAMPING) : damping * 10;
  }
  return null;
}
