import type { CharacteristicValue } from "./characteristicValue.ts";
import { fromLogSpread } from "./s319.ts";
import { classWords, S319 } from "./sharedWords.ts";

/** Geometric mean diameter by mass in um, `d_gw = 10^(sum W log d / sum W)`. */
export const geometricMeanDiameterUm: CharacteristicValue = {
  id: "geometricMeanDiameterUm",
  label: "Geometric mean dgw",
  unit: "um",
  needs: "any mass in a class of known size",
  formula: "10^(sum of W log d / sum of W), with d the class size and W its mass",
  convention: classWords("geometric"),
  source: S319,
  determine: (grading, choices) => fromLogSpread({ grading, choices }, "um", ({ meanUm }) => meanUm),
};
