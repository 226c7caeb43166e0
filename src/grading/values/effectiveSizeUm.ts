import type { CharacteristicValue } from "./characteristicValue.ts";
import { d, fromPercentiles } from "./fromPercentiles.ts";
import { READ_FROM_CURVE } from "./sharedWords.ts";

/** Hazen's effective size, d10 in um: the size that 10 % by mass passes. */
export const effectiveSizeUm: CharacteristicValue = {
  id: "effectiveSizeUm",
  label: "Effective size d10",
  unit: "um",
  needs: "d10 within the sieves",
  formula: "d10, the size that 10 % by mass passes",
  convention: READ_FROM_CURVE,
  source: "A. Hazen 1892; ANSI/AWWA B100 (memory)",
  determine: (grading, choices) => fromPercentiles({ grading, choices }, [d(10)], "um", (d10 = 0) => d10),
};
