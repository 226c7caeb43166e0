import { type Determination, determined, undetermined } from "../../record/determination.ts";
import { isAbove } from "../compare.ts";

/**
 * Moisture on the dry basis, from two weighings of the same portion in the same vessel.
 *
 *     w = 100 (moist - dry) / (dry - vessel)
 *
 * @param vesselG mass of the empty vessel if it was weighed along, in g
 * @returns unit "%"; not determinable if nothing dry is left or the portion gained in drying
 * @source common practice of soil and aggregate testing (ASTM C566, recalled)
 * @example moisturePct(525, 500) // => { determinable: true, value: 5, unit: "%" }
 */
export function moisturePct(moistG: number, dryG: number, vesselG = 0): Determination {
  if (!(dryG > vesselG)) return undetermined("nothing dry is left in the vessel: weigh it again");
  if (isAbove(dryG, moistG)) return undetermined("the portion is heavier dry than moist: weigh it again");
  return determined((100 * (moistG - dryG)) / (dryG - vesselG), "%");
}

/**
 * Dry mass in a moist portion, in g, from its moisture on the dry basis: dry = moist / (1 + w / 100).
 *
 * @example dryMassG(525, 5) // => 500
 */
export const dryMassG = (moistG: number, moisturePct: number): number => moistG / (1 + moisturePct / 100);

const CONSTANT_PCT = 0.1;
const APART_H = 1;

/**
 * Is a portion dry: do two weighings at least 1 h apart in the oven differ by no more than 0.1 %?
 *
 * @returns false as well for weighings too close together
 * @source EN 933-1 (recalled)
 */
export const isConstantMass = (firstG: number, secondG: number, hoursApart: number): boolean =>
  !(hoursApart < APART_H) && !isAbove(Math.abs(firstG - secondG), (CONSTANT_PCT / 100) * firstG);
