import type { CharacteristicValue } from "./characteristicValue.ts";
import { d, fromPercentiles } from "./fromPercentiles.ts";
import { READ_FROM_CURVE } from "./sharedWords.ts";

/** Uniformity coefficient `C_u = d60/d10`, a pure number from 1 upwards; 1 is grains of one size. */
export const uniformityCoefficient: CharacteristicValue = {
  id: "uniformityCoefficient",
  label: "Uniformity Cu",
  unit: "1",
  needs: "d10 and d60 within the sieves",
  formula: "d60 / d10",
  convention: READ_FROM_CURVE,
  source: "A. Hazen 1892; ASTM D2487 and ANSI/AWWA B100 (memory); Das, Principles of Geotechnical Engineering",
  determine: (grading, choices) =>
    fromPercentiles({ grading, choices }, [d(10), d(60)], "1", (d10 = 0, d60 = 0) => d60 / d10),
};
