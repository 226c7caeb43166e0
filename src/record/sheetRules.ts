import type { Fault } from "./faults.ts";
import type { Sheet } from "./sheet.ts";

export const MOST_SIEVES = 64;

/**
 * What no schema can say of a sheet: an aperture or the pan twice, too many sieves, neither pan nor charge.
 *
 * @param charge what the form at hand calls the charge: `chargeG` or `charge_g`
 */
export function sheetFault({ weighings, chargeG }: Sheet, charge: string): Fault | null {
  const sizes = weighings.map((row) => ("pan" in row ? 0 : row.apertureUm));
  const again = sizes.findIndex((size, i) => sizes.indexOf(size) !== i);
  if (sizes[again] === 0) return { path: ["weighings", again], reason: "is a second pan: keep one" };
  if (again !== -1)
    return { path: ["weighings", again, "apertureUm"], reason: `is ${sizes[again]} um a second time: keep one row` };
  if (sizes.filter((size) => size > 0).length > MOST_SIEVES)
    return { path: ["weighings"], reason: `has more than ${MOST_SIEVES} sieves` };
  if (!sizes.some((size) => size > 0)) return { path: ["weighings"], reason: "has no sieve: add at least one" };
  if (chargeG === 0) return { path: ["chargeG"], reason: "must be above 0" };
  if (sizes.includes(0) || chargeG !== undefined) return null;
  return { path: ["weighings"], reason: `has no pan row: add it, or give ${charge}, then what is missing is the pan` };
}
