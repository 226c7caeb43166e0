import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { Fault } from "../record/faults.ts";
import type { LocatedSheet } from "../record/locatedSheet.ts";
import type { Sheet } from "../record/sheet.ts";
import type { Fraction } from "./grading.ts";
import { netMassG, sumG } from "./netMass.ts";

/** A sheet's masses as grading takes them. */
export interface SheetMasses {
  readonly fractions: readonly Fraction[];
  readonly chargeG: number | null;
  readonly washedG: number | null;
  /** The sheet has no pan: what is missing from the charge (washed: from the dry mass after it) is counted as the pan. */
  readonly panAssumed: boolean;
}

/**
 * Net masses of a weighing sheet, in its order: as given, or full minus empty. Without a pan row
 *
 *     pan = charge - sum of the sieves     (washed: dry mass after washing - sum of the sieves)
 *
 * @param readabilityG what the balance can tell, in g: a net mass is left below zero by as much, beyond it is refused
 * @returns the masses in g, or one line: what cannot be, where in the sheet, and what to do
 */
export function sheetMasses({ sheet, tell }: LocatedSheet, readabilityG: number): Outcome<SheetMasses> {
  const weighed = sheet.weighings.map(fractionOf);
  const heldG = sumG(weighed.map((fraction) => Math.max(0, fraction.netG)));
  const pan = weighed.some((fraction) => fraction.apertureUm === 0) ? null : assumedPan(sheet, heldG);
  const fault = lightFault(weighed, readabilityG) ?? sumFault(heldG) ?? panFault(sheet, pan, heldG, readabilityG);
  if (fault) return refused(tell(fault));
  const { chargeG = null, washedG = null } = sheet;
  return accepted({ fractions: pan ? [...weighed, pan] : weighed, chargeG, washedG, panAssumed: pan !== null });
}

function fractionOf(row: Sheet["weighings"][number]): Fraction {
  const apertureUm = "pan" in row ? 0 : row.apertureUm;
  if ("netG" in row) return { apertureUm, emptyG: null, fullG: null, netG: row.netG };
  return { apertureUm, emptyG: row.emptyG, fullG: row.fullG, netG: netMassG(row.fullG, row.emptyG) };
}

const assumedPan = ({ chargeG, washedG }: Sheet, heldG: number): Fraction => ({
  apertureUm: 0,
  emptyG: null,
  fullG: null,
  netG: netMassG(washedG ?? chargeG ?? 0, heldG),
});

function lightFault(fractions: readonly Fraction[], readabilityG: number): Fault | null {
  const at = fractions.findIndex((fraction) => fraction.netG < -readabilityG);
  const light = fractions[at];
  if (!light) return null;
  const beyond = `by more than the balance can read (${readabilityG} g): weigh it again`;
  return light.fullG === null
    ? { path: ["weighings", at, "netG"], reason: `is ${light.netG} g, below zero ${beyond}` }
    : { path: ["weighings", at, "fullG"], reason: `is ${-light.netG} g below the empty mass, ${beyond}` };
}

const sumFault = (heldG: number): Fault | null =>
  heldG > 0 ? null : { path: ["weighings"], reason: "has no mass at all: every sieve is as heavy as when empty" };

function panFault(sheet: Sheet, pan: Fraction | null, heldG: number, readabilityG: number): Fault | null {
  if (!pan || pan.netG >= -readabilityG) return null;
  const field = sheet.washedG === undefined ? "chargeG" : "washedG";
  return { path: [field], reason: `is less than the ${heldG} g on the sieves: correct it, or weigh the pan` };
}
