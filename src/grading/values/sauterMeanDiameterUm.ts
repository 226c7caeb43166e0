import type { CharacteristicValue } from "./characteristicValue.ts";
import { fromClasses, weighted } from "./fromClasses.ts";
import { classWords } from "./sharedWords.ts";

/** Surface-volume (Sauter) mean diameter in um, `D[3,2] = 1 / sum(w/x)`: grains of this size have the same surface. */
export const sauterMeanDiameterUm: CharacteristicValue = {
  id: "sauterMeanDiameterUm",
  label: "Sauter mean D[3,2]",
  unit: "um",
  needs: "any mass in a class of known size",
  formula: "1 / sum of w / x, with x the class size and w its share of the mass",
  convention: classWords("arithmetic"),
  source: "ISO 9276-2 (memory); McCabe, Smith and Harriott, Unit Operations of Chemical Engineering",
  determine: (grading, choices) =>
    fromClasses({ grading, choices }, "arithmetic", "um", (classes) => 1 / weighted(classes, (sizeUm) => 1 / sizeUm)),
};
