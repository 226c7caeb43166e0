import { classBoundsUm } from "./classBounds.ts";
import type { MaterialConditions } from "./conditions.ts";
import type { Graded } from "./graded.ts";

const SPHERE = Math.PI / 6;
const G_PER_KG_AND_M3_PER_UM3 = 1e-15;

/** Mass in g over the cube of the size in um; null without a particle density. */
function gPerUm3({ particleDensityKgM3, volumeShapeFactor = SPHERE }: MaterialConditions): number | null {
  if (particleDensityKgM3 === undefined) return null;
  return particleDensityKgM3 * volumeShapeFactor * G_PER_KG_AND_M3_PER_UM3;
}

/** What one row holds, as grains. */
export interface RowGrains {
  readonly row: number;
  readonly apertureUm: number;
  readonly netG: number;
  /** How many grains that is. */
  readonly grains: number;
  /** Mean mass of a grain, each counted by its mass: what one grain more or less changes on average. */
  readonly grainG: number;
}

/** Mean of x^power over a class in which mass is spread evenly over ln x. */
function classMeanOf(power: number, lowerUm: number, upperUm: number): number {
  if (upperUm === lowerUm) return lowerUm ** power;
  return (upperUm ** power - lowerUm ** power) / (power * Math.log(upperUm / lowerUm));
}

/**
 * Grains in each row, coarsest sieve first and the pan last. A grain of size x weighs `rho k x^3`; inside a class mass
 * is spread evenly over ln x, as the log-linear curve has it. With the mass mean over the class
 *
 *     grains = m E[1 / (rho k x^3)],   grain mass by mass = E[rho k x^3] = rho k (b^3 - a^3) / (3 ln(b / a))
 *
 * @returns null without a particle density
 * @source common practice, no source; the grain mass is that of Gy's size-class formula
 */
export function grainsOf(graded: Graded, material: MaterialConditions | undefined): RowGrains[] | null {
  const perUm3 = gPerUm3(material ?? {});
  if (perUm3 === null) return null;
  return graded.grading.rows.map(({ apertureUm, netG }, row) => {
    const { lowerUm, upperUm } = classBoundsUm(graded, row);
    const grains = (netG * classMeanOf(-3, lowerUm, upperUm)) / perUm3;
    return { row, apertureUm, netG, grains, grainG: perUm3 * classMeanOf(3, lowerUm, upperUm) };
  });
}
