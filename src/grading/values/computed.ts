import { type Determination, determined, undetermined } from "../../record/determination.ts";

/** A computed number as a determination; one that no double can hold is a reason, each assumption is told once. */
export const computed = (value: number, unit: string, assumptions: readonly string[]): Determination =>
  Number.isFinite(value)
    ? determined(value + 0, unit, [...new Set(assumptions)])
    : undetermined("cannot be computed: the sizes lie too close together or too far apart");
