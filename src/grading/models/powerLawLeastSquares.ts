import { endlessPowerLaw, gatesGaudinSchuhmann } from "./gatesGaudinSchuhmann.ts";
import { leastSquares } from "./leastSquares.ts";
import type { GridLine } from "./model.ts";
import { normalEquations } from "./normalEquations.ts";
import type { FitPoint } from "./points.ts";

const sumOver = (points: readonly FitPoint[]): number =>
  points.reduce((sum, { passingPct }) => sum + (100 - passingPct) ** 2, 0);

/** The power law through the `below` finest points, if its top size really parts them from the coarser ones. */
function fitBelow(points: readonly FitPoint[], below: number): GridLine | null {
  const rising = points.slice(0, below);
  const line = leastSquares(gatesGaudinSchuhmann, rising, endlessPowerLaw);
  const coarsest = rising.at(-1)?.lnSizeUm ?? Number.POSITIVE_INFINITY;
  const next = points[below]?.lnSizeUm ?? Number.POSITIVE_INFINITY;
  return line && line.lnSizeUm >= coarsest && line.lnSizeUm <= next ? line : null;
}

/**
 * Least squares on % passing for Gates-Gaudin-Schuhmann, points finest first. A point coarser than the top size k is
 * predicted at 100 %, so the misfit has a kink wherever k meets an aperture. The kinks all bend downwards (a point
 * leaving the 100 % side only comes closer to its observed value, which is below 100), so no minimum lies on one:
 * each minimum is that of a plain power law through the j finest points with k between apertures j and j+1. Every
 * j from all points down to two is tried and the smallest sum over all points wins; a j is skipped once the points
 * predicted at 100 % alone misfit more than the best so far.
 * @returns null if no j gives a power law that keeps to its own side of k
 */
export function powerLawLeastSquares(points: readonly FitPoint[]): GridLine | null {
  let best: { readonly line: GridLine; readonly sum: number } | null = null;
  for (let below = points.length; below >= 2; below -= 1) {
    const above = sumOver(points.slice(below));
    if (best && above >= best.sum) break;
    const line = fitBelow(points, below);
    const sum = line ? normalEquations(points, gatesGaudinSchuhmann, line).sum : Number.POSITIVE_INFINITY;
    if (line && (!best || sum < best.sum)) best = { line, sum };
  }
  return best?.line ?? null;
}
