import type { CharacteristicValue } from "./characteristicValue.ts";
import { d, fromPercentiles } from "./fromPercentiles.ts";
import { READ_FROM_CURVE } from "./sharedWords.ts";

/** Uniformity index of granules, `UI = 100 d5/d90`: 100 is grains of one size; shown whole. */
export const uniformityIndex: CharacteristicValue = {
  id: "uniformityIndex",
  label: "Uniformity index",
  unit: "1",
  needs: "d5 (95 % retained) and d90 (10 % retained) within the sieves",
  formula: "100 x d5 / d90",
  convention: READ_FROM_CURVE,
  source: "fertilizer industry definition (memory)",
  determine: (grading, choices) =>
    fromPercentiles({ grading, choices }, [d(5), d(90)], "1", (d5 = 0, d90 = 0) => (100 * d5) / d90),
};
