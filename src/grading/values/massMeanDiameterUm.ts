import type { CharacteristicValue } from "./characteristicValue.ts";
import { fromClasses, weighted } from "./fromClasses.ts";
import { classWords } from "./sharedWords.ts";

/** Mass mean (De Brouckere) diameter in um, `D[4,3] = sum w x`. */
export const massMeanDiameterUm: CharacteristicValue = {
  id: "massMeanDiameterUm",
  label: "Mass mean D[4,3]",
  unit: "um",
  needs: "any mass in a class of known size",
  formula: "sum of w x, with x the class size and w its share of the mass",
  convention: classWords("arithmetic"),
  source: "ISO 9276-2 (memory); McCabe, Smith and Harriott, Unit Operations of Chemical Engineering",
  determine: (grading, choices) =>
    fromClasses({ grading, choices }, "arithmetic", "um", (classes) => weighted(classes, (sizeUm) => sizeUm)),
};
