import type { CharacteristicValue } from "./characteristicValue.ts";
import { fromGrains } from "./s319.ts";
import { classWords, S319 } from "./sharedWords.ts";

/**
 * Surface per gram of a log-normal grind in cm2/g, `A = b_s/(b_v rho) exp(s^2/2 - ln d_gw)`, d_gw in cm, rho in g/cm3,
 * s = ln S_gw.
 */
export const surfaceAreaCm2PerG: CharacteristicValue = {
  id: "surfaceAreaCm2PerG",
  label: "Surface per gram",
  unit: "cm2/g",
  needs: "the particle density of the product (1320 kg/m3 is usual for grain)",
  formula: "surface factor / (volume factor x density) x exp(s squared / 2 - ln dgw), dgw in cm, s = ln Sgw",
  convention: `Taken as log-normal; cubes (shape factors 6 and 1) unless the product says otherwise. ${classWords("geometric")}`,
  source: S319,
  determine: (grading, choices) =>
    fromGrains({ grading, choices }, "cm2/g", (grains, meanCm, s) => {
      const perCm = grains.surfaceShape / (grains.volumeShape * grains.densityGCm3);
      return perCm * Math.exp(0.5 * s * s - Math.log(meanCm));
    }),
};
