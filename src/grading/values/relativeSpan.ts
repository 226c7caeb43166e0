import type { CharacteristicValue } from "./characteristicValue.ts";
import { d, fromPercentiles } from "./fromPercentiles.ts";
import { READ_FROM_CURVE } from "./sharedWords.ts";

/** Relative span `(d90 - d10)/d50`, a pure number; 0 is grains of one size. */
export const relativeSpan: CharacteristicValue = {
  id: "relativeSpan",
  label: "Relative span",
  unit: "1",
  needs: "d10, d50 and d90 within the sieves",
  formula: "(d90 - d10) / d50",
  convention: READ_FROM_CURVE,
  source: "common practice, no source",
  determine: (grading, choices) =>
    fromPercentiles({ grading, choices }, [d(10), d(50), d(90)], "1", (d10 = 0, d50 = 0, d90 = 0) => (d90 - d10) / d50),
};
