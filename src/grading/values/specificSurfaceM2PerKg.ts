import { undetermined } from "../../record/determination.ts";
import type { Material } from "../../record/product.ts";
import { sizeClasses } from "../sizeClasses.ts";
import type { CharacteristicValue } from "./characteristicValue.ts";
import { computed } from "./computed.ts";
import { weighted } from "./fromClasses.ts";
import { classWords } from "./sharedWords.ts";

/** Surface per volume times size: 6 for spheres and cubes, more for any other shape. */
function shapeOf({ sphericity, surfaceShapeFactor, volumeShapeFactor }: Material): { factor: number; told: string[] } {
  if (sphericity !== undefined) return { factor: 6 / sphericity, told: [] };
  if (surfaceShapeFactor !== undefined || volumeShapeFactor !== undefined) {
    return { factor: (surfaceShapeFactor ?? 6) / (volumeShapeFactor ?? 1), told: [] };
  }
  return { factor: 6, told: ["shape: spheres or cubes (sphericity 1)"] };
}

const SHAPES =
  "Without a sphericity the product's shape factors give surface / volume instead of 6 / sphericity; without either, spheres or cubes are assumed. Pores do not count.";

/** Outer surface of the grains per mass in m2/kg, `A_w = 6/(sphericity rho) sum(w/x)`, x in m, rho in kg/m3. */
export const specificSurfaceM2PerKg: CharacteristicValue = {
  id: "specificSurfaceM2PerKg",
  label: "Specific surface",
  unit: "m2/kg",
  needs: "the particle density of the product; its sphericity if the grains are no spheres",
  formula: "6 / (sphericity x density) x sum of w / x, with x the class size and w its share of the mass",
  convention: `${SHAPES} ${classWords("arithmetic")}`,
  source: "McCabe, Smith and Harriott, Unit Operations of Chemical Engineering, ch. 28; ISO 9276-2 (memory)",
  determine(grading, choices) {
    const densityKgM3 = choices.material.particleDensityKgM3;
    if (densityKgM3 === undefined) return undetermined("needs the particle density of the product");
    const found = sizeClasses(grading, choices, "arithmetic");
    if (!found.ok) return undetermined(found.reason);
    const { factor, told } = shapeOf(choices.material);
    const perM = 1e6 * weighted(found.value.classes, (sizeUm) => 1 / sizeUm);
    return computed((factor / densityKgM3) * perM, "m2/kg", [...told, ...found.value.assumptions]);
  },
};
