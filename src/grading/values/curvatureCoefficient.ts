import type { CharacteristicValue } from "./characteristicValue.ts";
import { d, fromPercentiles } from "./fromPercentiles.ts";
import { READ_FROM_CURVE } from "./sharedWords.ts";

/** Coefficient of curvature `C_c = d30^2/(d10 d60)`, a pure number; 1 to 3 in a well graded soil. */
export const curvatureCoefficient: CharacteristicValue = {
  id: "curvatureCoefficient",
  label: "Curvature Cc",
  unit: "1",
  needs: "d10, d30 and d60 within the sieves",
  formula: "d30 squared / (d10 x d60)",
  convention: READ_FROM_CURVE,
  source: "ASTM D2487 (memory); Das, Principles of Geotechnical Engineering",
  determine: (grading, choices) =>
    fromPercentiles(
      { grading, choices },
      [d(10), d(30), d(60)],
      "1",
      (d10 = 0, d30 = 0, d60 = 0) => (d30 / d10) * (d30 / d60),
    ),
};
