import type { CharacteristicValue } from "./characteristicValue.ts";
import { fromPhiMoments } from "./phiMoments.ts";
import { MOMENTS, PHI_CLASSES } from "./sharedWords.ts";

/** Kurtosis by moments on the phi scale, a pure number; a normal distribution has 3. */
export const phiMomentKurtosis: CharacteristicValue = {
  id: "phiMomentKurtosis",
  label: "Moment kurtosis",
  unit: "1",
  needs: "mass in at least two classes of known size",
  formula: "sum of f (m - mean)^4 / sorting^4, with m the class middle in phi",
  convention: `Not reduced by 3: a normal distribution has 3. ${PHI_CLASSES}`,
  source: MOMENTS,
  determine: (grading, choices) => fromPhiMoments({ grading, choices }, "kurtosis", "1"),
};
