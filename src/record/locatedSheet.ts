import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { type Fault, firstFault } from "./faults.ts";
import { type Sheet, SheetSchema } from "./sheet.ts";
import { sheetFault } from "./sheetRules.ts";

/** How one form of sheet tells where a fault is, and what it calls the charge. */
export interface SheetForm {
  readonly tell: (fault: Fault) => string;
  readonly charge: string;
}

/** A sheet that was read, and how to tell where in it something is wrong. */
export interface LocatedSheet {
  readonly sheet: Sheet;
  readonly tell: (fault: Fault) => string;
}

/** Holds what was read of a sheet against the schema and the rules of sheets. */
export function locatedSheet(json: unknown, { tell, charge }: SheetForm): Outcome<LocatedSheet> {
  const read = SheetSchema.safeParse(json);
  if (!read.success) return refused(tell(firstFault(read.error, json)));
  const fault = sheetFault(read.data, charge);
  return fault ? refused(tell(fault)) : accepted({ sheet: read.data, tell });
}
