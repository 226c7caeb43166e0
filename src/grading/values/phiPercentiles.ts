import type { Determination } from "../../record/determination.ts";
import type { Grading, GradingChoices } from "../grading.ts";
import { phiOf } from "../phi.ts";
import { fromPercentiles, type Wanted } from "./fromPercentiles.ts";

/** phi16, phi84, ...: counted from the coarse side, so phi16 is d84. */
const phi = (coarserPct: number): Wanted => ({
  passingPct: 100 - coarserPct,
  name: `phi${coarserPct} (d${100 - coarserPct})`,
});

/** A value made of phi percentiles: `combine` gets them in phi, in the order they are wanted. */
export const fromPhi = (
  on: { readonly grading: Grading; readonly choices: GradingChoices },
  coarserPct: readonly number[],
  unit: string,
  combine: (...phis: number[]) => number,
): Determination => fromPercentiles(on, coarserPct.map(phi), unit, (...sizesUm) => combine(...sizesUm.map(phiOf)));
