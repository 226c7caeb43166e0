import { standsAtUm } from "../../grading/standsAt.ts";
import type { DrawnAperture } from "../components/component.ts";
import type { Graded } from "../graded.ts";
import { localCurve } from "../localCurve.ts";
import type { Chance } from "./chance.ts";
import { standardDraw } from "./standardDraw.ts";

/** Points of the table of one sieve, over this many standard uncertainties to either side. */
const [POINTS, REACH] = [512, 6];

/** By how much passing % is off where a sieve stands (at a) and the drawn mean is w: `F(a a / w) - F(a)`. */
function shiftTable(graded: Graded, { row, uUm }: DrawnAperture): Float64Array {
  const sieve = graded.grading.rows[row];
  const standsUm = sieve ? standsAtUm(sieve) : 1;
  const { passingPct, passingPctAt } = localCurve(graded, row);
  return Float64Array.from({ length: POINTS + 1 }, (_, i) => {
    const drawnUm = standsUm + uUm * ((2 * REACH * i) / POINTS - REACH);
    return passingPctAt(standsUm ** 2 / Math.max(drawnUm, standsUm / 10)) - passingPct;
  });
}

/**
 * Draws for one sieve how much the passing % that it gave is to change so that it holds where the sieve stands. The
 * found curve F close to the sieve is moved along the logarithm of the aperture by what the drawn mean is off; the change
 * is read from a table of F.
 *
 * @returns a function that gives the change in % passing
 */
export function apertureShift(graded: Graded, aperture: DrawnAperture, chance: Chance): () => number {
  const table = shiftTable(graded, aperture);
  const draw = standardDraw(aperture.shape, chance);
  return () => {
    const place = Math.min(POINTS - 1e-9, Math.max(0, ((draw() + REACH) * POINTS) / (2 * REACH)));
    const k = Math.trunc(place);
    const [left, right] = [table[k] ?? 0, table[k + 1] ?? 0];
    return left + (place - k) * (right - left);
  };
}
