import { sortingWords } from "../phiWords.ts";
import type { CharacteristicValue } from "./characteristicValue.ts";
import { fromPhi } from "./phiPercentiles.ts";
import { FOLK_AND_WARD, PHI_READ } from "./sharedWords.ts";

/** Inclusive graphic sorting in phi, `sigma_I = (phi84 - phi16)/4 + (phi95 - phi5)/6.6`; small is well sorted. */
export const phiGraphicSorting: CharacteristicValue = {
  id: "phiGraphicSorting",
  label: "Graphic sorting",
  unit: "phi",
  needs: "d5, d16, d84 and d95 within the sieves",
  formula: "(phi84 - phi16) / 4 + (phi95 - phi5) / 6.6",
  convention: `Divisor 6.6 as in the original; some manuals divide by 6.0. ${PHI_READ}`,
  source: FOLK_AND_WARD,
  words: sortingWords,
  determine: (grading, choices) =>
    fromPhi(
      { grading, choices },
      [5, 16, 84, 95],
      "phi",
      (phi5 = 0, phi16 = 0, phi84 = 0, phi95 = 0) => (phi84 - phi16) / 4 + (phi95 - phi5) / 6.6,
    ),
};
