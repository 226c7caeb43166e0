import type { Component, DrawnAperture } from "../components/component.ts";
import { chargeAt, type Graded, isWashed, type Masses, panAt, washedAt } from "../graded.ts";
import { apertureShift } from "./apertureShift.ts";
import type { Chance } from "./chance.ts";

/** Passing % at the sieves, finest first (the order of curves). */
export type Passing = number[];

const clipped = (pct: number): number => Math.max(0, Math.min(100, pct));

/**
 * Passing % as `grade` has it, without its words and roundings: the fast inner path of the draws.
 *
 * @param passingPct is filled
 * @returns the mass that is 100 %, in g
 */
export function passingOf(graded: Graded, masses: Masses, passingPct: Passing): number {
  const sieves = panAt(graded);
  const chargeG = masses[chargeAt(graded)] ?? 0;
  let finerG = isWashed(graded) ? chargeG - (masses[washedAt(graded)] ?? 0) : 0;
  for (let row = sieves; row > 0; row--) {
    finerG += masses[row] ?? 0;
    passingPct[sieves - row] = finerG;
  }
  const recoveredG = finerG + (masses[0] ?? 0);
  const totalG = graded.grading.basis === "charge" ? chargeG : recoveredG;
  const unseenG = totalG - recoveredG;
  for (let k = 0; k < sieves; k++) passingPct[k] = clipped((100 * ((passingPct[k] ?? 0) + unseenG)) / totalG);
  return totalG;
}

function drawnApertures(components: readonly Component[]): readonly DrawnAperture[] {
  for (const component of components) {
    if (component.included && component.drawing.kind === "apertures") return component.drawing.sieves;
  }
  return [];
}

/** One draw of the true curve: what would have passed perfect sieves. */
export interface DrawnCurve {
  /** Passing % where the sieves stand, finest first. */
  readonly passingPct: Passing;
  /** The drawn masses with what belongs elsewhere by the apertures moved there. */
  readonly masses: Masses;
}

/**
 * From drawn masses to a drawn curve: their passing %, changed at each sieve by what a drawn mean aperture makes of it.
 *
 * @returns a function from a draw of masses to the curve; both lists are used again by the next draw
 */
export function drawCurve(
  graded: Graded,
  components: readonly Component[],
  chance: Chance,
): (masses: Masses) => DrawnCurve {
  const sieves = panAt(graded);
  const passingPct: Passing = new Array(sieves).fill(0);
  const shifts = drawnApertures(components).map((drawn) => ({
    row: drawn.row,
    shift: apertureShift(graded, drawn, chance),
  }));
  return (masses) => {
    const totalG = passingOf(graded, masses, passingPct);
    for (let s = 0; s < shifts.length; s++) {
      const { row = 0, shift } = shifts[s] ?? {};
      const at = sieves - 1 - row;
      const before = passingPct[at] ?? 0;
      const after = clipped(before + (shift?.() ?? 0));
      const movedG = ((after - before) / 100) * totalG;
      passingPct[at] = after;
      masses[row] = (masses[row] ?? 0) - movedG;
      masses[row + 1] = (masses[row + 1] ?? 0) + movedG;
    }
    return { passingPct, masses };
  };
}
