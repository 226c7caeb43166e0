import { type Determination, undetermined } from "../../record/determination.ts";
import type { Grading, GradingChoices } from "../grading.ts";
import { type Moments, momentsOf } from "../moments.ts";
import { phiOf } from "../phi.ts";
import { remembered } from "../remembered.ts";
import { type SizeClasses, sizeClasses } from "../sizeClasses.ts";
import { computed } from "./computed.ts";

const momentsOnPhi = remembered(({ classes }: SizeClasses) => {
  const phis = classes.map(({ sizeUm }) => phiOf(sizeUm));
  const shares = classes.map(({ share }) => share);
  return momentsOf(phis, shares);
});

/** One of the moments of the size classes on the phi scale (geometric class middles are the middles in phi). */
export function fromPhiMoments(
  { grading, choices }: { readonly grading: Grading; readonly choices: GradingChoices },
  which: keyof Moments,
  unit: string,
): Determination {
  const found = sizeClasses(grading, choices, "geometric");
  if (!found.ok) return undetermined(found.reason);
  const moment = momentsOnPhi(found.value)[which];
  if (moment === null) return undetermined("all lies in one class: it has no shape");
  return computed(moment, unit, found.value.assumptions);
}
