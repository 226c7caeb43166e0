import { parse } from "csv-parse/sync";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { quoted } from "../entry/quoted.ts";

export type Separator = "," | ";";

/** Where each thing stands in the rows of one sheet, counted from 0; what is absent has no column. */
export interface SheetColumns {
  readonly names: readonly string[];
  readonly aperture: number;
  /** The apertures are in mm. */
  readonly inMm: boolean;
  readonly empty: number;
  readonly full: number;
  readonly net: number;
  readonly sieve: number;
}

const KNOWN = ["aperture_um", "aperture_mm", "empty_g", "full_g", "net_g", "sieve"];
export const NO_COLUMN = -1;

/** The cells of one line (RFC 4180 within the line), without the spaces around them. */
export function cellsOf(line: string, separator: Separator): Outcome<readonly string[]> {
  try {
    const [cells = []] = parse(line, { delimiter: separator, relax_column_count: true, trim: true }) as string[][];
    return accepted(cells);
  } catch {
    return refused("has a quotation mark out of place: put quotes around the whole cell or leave them out");
  }
}

/** A sheet's header line, with its separator: `;` if there is one in it, else `,`. */
export function sheetColumns(header: string): Outcome<{ columns: SheetColumns; separator: Separator }> {
  const separator: Separator = header.includes(";") ? ";" : ",";
  const names = cellsOf(header, separator);
  if (!names.ok) return names;
  const fault = strangeColumn(names.value) ?? missingColumn(names.value);
  if (fault !== null) return refused(fault);
  const at = (name: string) => names.value.indexOf(name);
  const inMm = at("aperture_mm") !== NO_COLUMN;
  const aperture = at(inMm ? "aperture_mm" : "aperture_um");
  const masses = { empty: at("empty_g"), full: at("full_g"), net: at("net_g"), sieve: at("sieve") };
  return accepted({ columns: { names: names.value, aperture, inMm, ...masses }, separator });
}

function strangeColumn(names: readonly string[]): string | null {
  const unknown = names.findIndex((name) => !KNOWN.includes(name));
  const name = names[unknown];
  if (name === "") return `column ${unknown + 1} has no name: remove it or name it`;
  if (name !== undefined) return `unknown column ${quoted(name)}: known are ${KNOWN.join(", ")}`;
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  return twice === undefined ? null : `the column ${twice} stands twice`;
}

function missingColumn(names: readonly string[]): string | null {
  const has = (name: string) => names.includes(name);
  if (has("aperture_um") === has("aperture_mm")) return "needs a column aperture_um or aperture_mm, one of the two";
  const weighed = has("empty_g") || has("full_g");
  if (weighed && has("net_g")) return "has net_g beside empty_g and full_g: keep either net_g or the two weighings";
  if (has("net_g") || (has("empty_g") && has("full_g"))) return null;
  return "needs the columns empty_g and full_g, or net_g";
}
