import type { CharacteristicValue } from "./characteristicValue.ts";
import { fromGrains } from "./s319.ts";
import { classWords, S319 } from "./sharedWords.ts";

/**
 * Particles per gram of a log-normal grind, `N = 1/(b_v rho) exp(4.5 s^2 - 3 ln d_gw)`, d_gw in cm, rho in g/cm3,
 * s = ln S_gw.
 */
export const particlesPerG: CharacteristicValue = {
  id: "particlesPerG",
  label: "Particles per gram",
  unit: "1/g",
  needs: "the particle density of the product (1320 kg/m3 is usual for grain)",
  formula: "1 / (volume factor x density) x exp(4.5 s squared - 3 ln dgw), dgw in cm, s = ln Sgw",
  convention: `Taken as log-normal; cubes (volume factor 1) unless the product says otherwise. ${classWords("geometric")}`,
  source: S319,
  determine: (grading, choices) =>
    fromGrains({ grading, choices }, "1/g", ({ volumeShape, densityGCm3 }, meanCm, s) => {
      return Math.exp(4.5 * s * s - 3 * Math.log(meanCm)) / (volumeShape * densityGCm3);
    }),
};
