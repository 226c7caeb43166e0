import type { CharacteristicValue } from "./characteristicValue.ts";
import { fromPhiMoments } from "./phiMoments.ts";
import { MOMENTS, PHI_CLASSES } from "./sharedWords.ts";

/** Standard deviation by moments, in phi; 0 if all lies in one class. */
export const phiMomentSorting: CharacteristicValue = {
  id: "phiMomentSorting",
  label: "Moment sorting",
  unit: "phi",
  needs: "any mass in a class of known size",
  formula: "square root of the sum of f (m - mean) squared, with m the class middle in phi",
  convention: `Population form (no n - 1). ${PHI_CLASSES}`,
  source: MOMENTS,
  determine: (grading, choices) => fromPhiMoments({ grading, choices }, "sorting", "phi"),
};
