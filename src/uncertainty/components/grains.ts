import type { Conditions } from "../conditions.ts";
import { type Graded, massCount, massesOf, panAt } from "../graded.ts";
import { grainsOf, type RowGrains } from "../grainCount.ts";
import { type Cause, type Component, type CountedRow, included, notIncluded } from "./component.ts";

/** The spare half grain of a count: Jeffreys' prior for the mean of a Poisson count. */
export const SPARE = 0.5;

/** Mass moved into one row out of all rows in proportion, so that the total stays what it is. */
export function atConstantTotal(graded: Graded, row: number, byG: number): Float64Array {
  const masses = massesOf(graded).subarray(0, panAt(graded) + 1);
  const sumG = masses.reduce((sum, g) => sum + g, 0);
  const byMassG = new Float64Array(massCount(graded));
  byMassG.set(masses.map((g) => (-byG * g) / sumG));
  byMassG[row] = (byMassG[row] ?? 0) + byG;
  return byMassG;
}

/** Rows that hold grains, and the empty one above the coarsest of them, where the next grain could have lain. */
const wherePossible = (grains: readonly RowGrains[]): RowGrains[] =>
  grains.filter((row, i) => row.netG > 0 || (grains[i + 1]?.netG ?? 0) > 0);

/** Standard uncertainty of what one row holds: the root of its count, times what a grain weighs. */
const uG = ({ grains, grainG, part }: CountedRow): number => grainG * Math.sqrt((grains + SPARE) * part);

export function countedCauses(graded: Graded, rows: readonly CountedRow[]): Cause[] {
  return rows.map((row) => ({ shape: "normal", byMassG: atConstantTotal(graded, row.row, uG(row)) }));
}

/** What is left of the variance of a charge that is split from a sample of this mass, and not from an endless one. */
export function partLeft(graded: Graded, { sampling }: Conditions): number {
  if (sampling?.kind !== "fundamental") return 1;
  return Math.max(0, 1 - graded.grading.totalG / sampling.sampleG);
}

/**
 * The charge as a draw of grains, each grain by itself: counts are Poisson, masses of the rows a mass-weighted
 * multinomial. Row i holds m_i in grains of mean mass w_i, so `u^2(m_i) = w_i^2 (m_i / w_i + 1/2)`, at constant total;
 * for a passing share Q of the mass M this is
 *
 *     u^2(Q) = [(1 - Q)^2 sum of finer w m + Q^2 sum of coarser w m] / M^2
 *
 * The half grain is that of Jeffreys' prior; it matters for rows of a few grains and for the empty row just above the
 * coarsest grain. Shape and class bounds are taken as exact.
 *
 * @source Gy's fundamental error by size classes: P. Gy; F. Pitard (memory); Jeffreys 1946 for the half
 */
export function grains(graded: Graded, conditions: Conditions): Component {
  const counted = grainsOf(graded, conditions.material);
  if (!counted) return notIncluded("grains", "the particle density of the product is not known");
  const part = partLeft(graded, conditions);
  if (part === 0) return notIncluded("grains", "the whole sample was sieved: nothing was split");
  const rows = wherePossible(counted).map(({ row, netG, grainG }) => ({ row, grainG, grains: netG / grainG, part }));
  const density = conditions.material?.particleDensityKgM3;
  const told =
    conditions.material?.volumeShapeFactor === undefined
      ? `spheres of ${density} kg/m3, drawn one by one`
      : `grains of the product's shape of ${density} kg/m3, drawn one by one`;
  return included("grains", told, countedCauses(graded, rows), { kind: "counted", rows });
}
