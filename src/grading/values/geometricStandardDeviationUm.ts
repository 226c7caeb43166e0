import type { CharacteristicValue } from "./characteristicValue.ts";
import { fromLogSpread } from "./s319.ts";
import { classWords, S319 } from "./sharedWords.ts";

/** Geometric standard deviation by mass in um, `S_gw[um] = (d_gw/2) (10^S_log - 10^-S_log)`; 0 is one class. */
export const geometricStandardDeviationUm: CharacteristicValue = {
  id: "geometricStandardDeviationUm",
  label: "Geometric SD in um",
  unit: "um",
  needs: "any mass in a class of known size",
  formula: "dgw / 2 x (Sgw - 1 / Sgw), with Sgw the geometric standard deviation as a ratio",
  convention: `In um, as later editions show it beside the ratio. ${classWords("geometric")}`,
  source: S319,
  determine: (grading, choices) =>
    fromLogSpread({ grading, choices }, "um", ({ meanUm, lnDeviation }) => meanUm * Math.sinh(lnDeviation)),
};
