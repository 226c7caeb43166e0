import { type Outcome, refused } from "../entry/outcome.ts";
import { type DecimalMark, parseNumber } from "../entry/quantityNumber.ts";
import { quoted } from "../entry/quoted.ts";
import type { Separator } from "./sheetColumns.ts";

/** How numbers are written in one sheet. */
export interface NumberStyle {
  readonly separator: Separator;
  readonly decimal: DecimalMark | undefined;
}

/** With `;` decimals may take a comma; once a sheet is seen to write so, `1.234` would have two readings. */
export const numberStyle = (text: string, separator: Separator): NumberStyle => ({
  separator,
  decimal: separator === "," ? "point" : /\d,\d/.test(text) ? "comma" : undefined,
});

/** A cell as a number; `times10To` shifts its decimal point (mm to um: 3). */
export function sheetNumber(cell: string, { separator, decimal }: NumberStyle, times10To = 0): Outcome<number> {
  if (separator === "," && /^[+-]?\d*,\d+$/.test(cell))
    return refused(`${quoted(cell)} has a decimal comma: type a point, or put ; between the columns`);
  return parseNumber(cell, decimal, times10To);
}
