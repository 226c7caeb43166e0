import { kurtosisWords } from "../phiWords.ts";
import type { CharacteristicValue } from "./characteristicValue.ts";
import { fromPhi } from "./phiPercentiles.ts";
import { FOLK_AND_WARD, PHI_READ } from "./sharedWords.ts";

/** Graphic kurtosis `K_G = (phi95 - phi5)/(2.44 (phi75 - phi25))`, a pure number; a normal distribution has 1. */
export const phiGraphicKurtosis: CharacteristicValue = {
  id: "phiGraphicKurtosis",
  label: "Graphic kurtosis",
  unit: "1",
  needs: "d5, d25, d75 and d95 within the sieves",
  formula: "(phi95 - phi5) / (2.44 (phi75 - phi25))",
  convention: `A normal distribution has 1. ${PHI_READ}`,
  source: FOLK_AND_WARD,
  words: kurtosisWords,
  determine: (grading, choices) =>
    fromPhi(
      { grading, choices },
      [5, 25, 75, 95],
      "1",
      (phi5 = 0, phi25 = 0, phi75 = 0, phi95 = 0) => (phi95 - phi5) / (2.44 * (phi75 - phi25)),
    ),
};
