import { type Determination, undetermined } from "../../record/determination.ts";
import type { ClassMean } from "../../record/product.ts";
import type { Grading, GradingChoices } from "../grading.ts";
import { type SizeClass, sizeClasses } from "../sizeClasses.ts";
import { computed } from "./computed.ts";

/** A value made of size classes: `combine` gets them, their shares adding to 1. */
export function fromClasses(
  { grading, choices }: { readonly grading: Grading; readonly choices: GradingChoices },
  ownMean: ClassMean,
  unit: string,
  combine: (classes: readonly SizeClass[]) => number,
): Determination {
  const found = sizeClasses(grading, choices, ownMean);
  if (!found.ok) return undetermined(found.reason);
  return computed(combine(found.value.classes), unit, found.value.assumptions);
}

/** Sum of share times a function of size. */
export const weighted = (classes: readonly SizeClass[], of: (sizeUm: number) => number): number =>
  classes.reduce((sum, { sizeUm, share }) => sum + share * of(sizeUm), 0);
