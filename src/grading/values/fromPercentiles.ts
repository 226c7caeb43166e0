import { type Determination, undetermined } from "../../record/determination.ts";
import type { Grading, GradingChoices } from "../grading.ts";
import { percentileUm } from "../percentile.ts";
import { sizeFault } from "../standsAt.ts";
import { computed } from "./computed.ts";

/** A percentile that a value needs, and what its people call it. */
export interface Wanted {
  readonly passingPct: number;
  readonly name: string;
}

/** d10, d60, ... as they are called where sizes count from the fine side. */
export const d = (passingPct: number): Wanted => ({ passingPct, name: `d${passingPct}` });

/** A value made of percentiles: `combine` gets their sizes in um, in the order they are wanted. */
export function fromPercentiles(
  { grading, choices }: { readonly grading: Grading; readonly choices: GradingChoices },
  wanted: readonly Wanted[],
  unit: string,
  combine: (...sizesUm: number[]) => number,
): Determination {
  const fault = sizeFault(grading);
  if (fault !== null) return undetermined(fault);
  const sizesUm: number[] = [];
  const assumptions: string[] = [];
  const missing: string[] = [];
  for (const { passingPct, name } of wanted) {
    const found = percentileUm(grading, passingPct, choices.interpolation);
    if (!found.determinable) missing.push(`${name} is ${found.reason}`);
    else {
      sizesUm.push(found.value);
      for (const words of found.assumptions ?? []) assumptions.push(`${name}: ${words}`);
    }
  }
  return missing.length > 0 ? undetermined(missing.join("; ")) : computed(combine(...sizesUm), unit, assumptions);
}
