import type { CharacteristicValue } from "./characteristicValue.ts";
import { fromPhiMoments } from "./phiMoments.ts";
import { MOMENTS, PHI_CLASSES } from "./sharedWords.ts";

/** Skewness by moments on the phi scale, a pure number; positive has a tail of fines. */
export const phiMomentSkewness: CharacteristicValue = {
  id: "phiMomentSkewness",
  label: "Moment skewness",
  unit: "1",
  needs: "mass in at least two classes of known size",
  formula: "sum of f (m - mean) cubed / sorting cubed, with m the class middle in phi",
  convention: `Positive: a tail on the fine side. ${PHI_CLASSES}`,
  source: MOMENTS,
  determine: (grading, choices) => fromPhiMoments({ grading, choices }, "skewness", "1"),
};
