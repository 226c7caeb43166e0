import { bendU } from "../bend.ts";
import type { Component } from "../components/component.ts";
import type { Graded } from "../graded.ts";
import { boundsOf, type Measurand } from "../measurand.ts";
import type { Chance } from "./chance.ts";
import type { Reader } from "./readers.ts";

/** A reader that also draws how the curve may bend where it reads. */
export type Bent = (on: Measurand, unit: string, read: Reader) => Reader;

/**
 * Draws, on top of what a reader reads off a drawn curve, how that curve may bend between mean apertures (`bendU`, normal),
 * held within what the number can be. Over nominal apertures, or with the apertures left out, the reader itself.
 */
export function bent(graded: Graded, components: readonly Component[], { normal }: Chance): Bent {
  const counts = components.some(({ id, included }) => id === "apertures" && included);
  return (on, unit, read) => {
    const u = counts ? bendU(on, graded) : 0;
    if (u === 0) return read;
    const { low, high } = boundsOf(unit);
    return (drawn, grading) => {
      const found = read(drawn, grading);
      if (found === null) return null;
      const value = found + u * normal();
      return Math.min(high ?? value, Math.max(low ?? value, value));
    };
  };
}
