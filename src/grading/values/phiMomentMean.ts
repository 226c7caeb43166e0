import type { CharacteristicValue } from "./characteristicValue.ts";
import { fromPhiMoments } from "./phiMoments.ts";
import { MOMENTS, PHI_CLASSES } from "./sharedWords.ts";

/** Mean by moments, in phi: the mass-weighted mean of the class middles. */
export const phiMomentMean: CharacteristicValue = {
  id: "phiMomentMean",
  label: "Moment mean",
  unit: "phi",
  needs: "any mass in a class of known size",
  formula: "sum of f m, with m the class middle in phi and f its share of the mass",
  convention: PHI_CLASSES,
  source: MOMENTS,
  determine: (grading, choices) => fromPhiMoments({ grading, choices }, "mean", "phi"),
};
