import type { CharacteristicValue } from "./characteristicValue.ts";
import { d, fromPercentiles } from "./fromPercentiles.ts";
import { READ_FROM_CURVE } from "./sharedWords.ts";

/** Size guide number of granules, `SGN = 100 d50[mm]`, a pure number; shown whole. */
export const sizeGuideNumber: CharacteristicValue = {
  id: "sizeGuideNumber",
  label: "Size guide number",
  unit: "1",
  needs: "d50 within the sieves",
  formula: "100 x d50 in mm",
  convention: READ_FROM_CURVE,
  source: "fertilizer industry definition (turf-fertilizer articles, seen)",
  determine: (grading, choices) => fromPercentiles({ grading, choices }, [d(50)], "1", (d50 = 0) => d50 / 10),
};
