import type { CharacteristicValue } from "./characteristicValue.ts";
import { fromLogSpread } from "./s319.ts";
import { classWords, S319 } from "./sharedWords.ts";

/** Geometric standard deviation by mass as a ratio, `S_gw = 10^S_log`; 1 is grains of one class. */
export const geometricStandardDeviation: CharacteristicValue = {
  id: "geometricStandardDeviation",
  label: "Geometric SD Sgw",
  unit: "1",
  needs: "any mass in a class of known size",
  formula: "10^S, with S the square root of (sum of W (log d - log dgw) squared / sum of W)",
  convention: `As a ratio: two thirds of the mass lie between dgw / Sgw and dgw x Sgw if log-normal. ${classWords("geometric")}`,
  source: S319,
  determine: (grading, choices) => fromLogSpread({ grading, choices }, "1", ({ lnDeviation }) => Math.exp(lnDeviation)),
};
