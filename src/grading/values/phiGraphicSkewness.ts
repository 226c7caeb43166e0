import { skewnessWords } from "../phiWords.ts";
import type { CharacteristicValue } from "./characteristicValue.ts";
import { fromPhi } from "./phiPercentiles.ts";
import { FOLK_AND_WARD, PHI_READ } from "./sharedWords.ts";

const lean = (low: number, middle: number, high: number): number => (low + high - 2 * middle) / (2 * (high - low));

/** Inclusive graphic skewness, the mean of two leans, a pure number from -1 to 1; positive has a tail of fines. */
export const phiGraphicSkewness: CharacteristicValue = {
  id: "phiGraphicSkewness",
  label: "Graphic skewness",
  unit: "1",
  needs: "d5, d16, d50, d84 and d95 within the sieves",
  formula: "(phi16 + phi84 - 2 phi50) / (2 (phi84 - phi16)) + (phi5 + phi95 - 2 phi50) / (2 (phi95 - phi5))",
  convention: `Positive: a tail on the fine side. ${PHI_READ}`,
  source: FOLK_AND_WARD,
  words: skewnessWords,
  determine: (grading, choices) =>
    fromPhi(
      { grading, choices },
      [5, 16, 50, 84, 95],
      "1",
      (phi5 = 0, phi16 = 0, phi50 = 0, phi84 = 0, phi95 = 0) => lean(phi16, phi50, phi84) + lean(phi5, phi50, phi95),
    ),
};
