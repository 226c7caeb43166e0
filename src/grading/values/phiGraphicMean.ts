import type { CharacteristicValue } from "./characteristicValue.ts";
import { fromPhi } from "./phiPercentiles.ts";
import { FOLK_AND_WARD, PHI_READ } from "./sharedWords.ts";

/** Graphic mean in phi, `M_z = (phi16 + phi50 + phi84)/3`. */
export const phiGraphicMean: CharacteristicValue = {
  id: "phiGraphicMean",
  label: "Graphic mean Mz",
  unit: "phi",
  needs: "d16, d50 and d84 within the sieves",
  formula: "(phi16 + phi50 + phi84) / 3",
  convention: PHI_READ,
  source: FOLK_AND_WARD,
  determine: (grading, choices) =>
    fromPhi(
      { grading, choices },
      [16, 50, 84],
      "phi",
      (phi16 = 0, phi50 = 0, phi84 = 0) => (phi16 + phi50 + phi84) / 3,
    ),
};
