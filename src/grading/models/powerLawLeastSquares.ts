import { endlessPowerLaw, gatesGaudinSchuhmann } from "./gatesGaudinSchuhmann.ts";
import { closestEnd, isMissed } from "./leastSquares.ts";
import type { GridLine } from "./model.ts";
import type { FitPoint } from "./points.ts";
import { type Candidate, candidate, closest, startingLines } from "./startingLines.ts";

/** The line on the grid and the closest of the fixed slopes; searched on fine grids, endless power laws needed no more. */
function twoStarts(rising: readonly FitPoint[]): readonly Candidate[] {
  const [line, ...others] = startingLines(gatesGaudinSchuhmann, endlessPowerLaw, rising);
  return [line ?? null, closest(others)].filter((start) => start !== null);
}

/** Whether the top size of a line really parts the `below` finest points from the coarser ones. */
function parts(line: GridLine, points: readonly FitPoint[], below: number): boolean {
  const next = points[below]?.lnSizeUm ?? Number.POSITIVE_INFINITY;
  return line.lnSizeUm >= (points[below - 1]?.lnSizeUm ?? 0) && line.lnSizeUm <= next;
}

const missedBy100 = (points: readonly FitPoint[]): number =>
  points.reduce((sum, { passingPct }) => sum + (100 - passingPct) ** 2, 0);

/**
 * Least squares on % passing for Gates-Gaudin-Schuhmann, points finest first. A point coarser than the top size k is
 * predicted at 100 %, so the misfit has a kink wherever k meets an aperture. The kinks all bend downwards (a point
 * leaving the 100 % side only comes closer to its observed value, which is below 100), so no minimum lies on one:
 * each minimum is that of a plain power law through the j finest points with k between apertures j and j+1. Every
 * j from all points down to two is tried and the smallest sum over all points wins; the search ends once the points
 * predicted at 100 % alone misfit more than the best so far.
 * @returns null if no j gives a power law that keeps to its own side of k, or if a start was closer than all that did
 */
export function powerLawLeastSquares(points: readonly FitPoint[]): GridLine | null {
  const whole = (line: GridLine): Candidate => candidate(points, gatesGaudinSchuhmann, line);
  const tried: Candidate[] = [];
  let best: Candidate | null = null;
  for (let below = points.length; below >= 2; below -= 1) {
    if (best && missedBy100(points.slice(below)) >= best.sum) break;
    const rising = points.slice(0, below);
    const starts = twoStarts(rising);
    const end = closestEnd(rising, endlessPowerLaw, starts);
    if (end && parts(end, points, below)) best = closest([...(best ? [best] : []), whole(end)]);
    tried.push(...starts.map(({ line }) => whole(line)));
  }
  return best && !isMissed(best, tried) ? best.line : null;
}
