import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { quoted } from "../entry/quoted.ts";
import type { Measured } from "./care.ts";
import { fileText } from "./fileText.ts";
import { cellsOf, type Separator } from "./sheetColumns.ts";
import { type NumberStyle, numberStyle, sheetNumber } from "./sheetNumber.ts";

/** What a file of measured apertures holds, in um along each direction. */
export type AperturesRead = Pick<Measured, "warpUm" | "weftUm">;

const COLUMNS = ["warp_um", "weft_um"];
const MOST = 2000;
const MOST_UM = 1e6;

interface Header {
  readonly names: readonly string[];
  readonly separator: Separator;
}

function headerOf(text: string): Outcome<Header> {
  const separator: Separator = text.includes(";") ? ";" : ",";
  const names = cellsOf(text, separator);
  if (!names.ok) return names;
  const strange = names.value.find((name) => !COLUMNS.includes(name));
  if (strange !== undefined) return refused(`unknown column ${quoted(strange)}: known are ${COLUMNS.join(", ")}`);
  if (new Set(names.value).size < names.value.length) return refused("names a column twice");
  return names.value.includes("warp_um")
    ? accepted({ names: names.value, separator })
    : refused("needs the column warp_um, and weft_um where both directions were measured");
}

/** The cells of one line as apertures, null where one is left empty; or which column is wrong, and how. */
function rowOf(text: string, { names, separator }: Header, style: NumberStyle): Outcome<readonly (number | null)[]> {
  const cells = cellsOf(text, separator);
  if (!cells.ok) return refused(`: ${cells.reason}`);
  if (cells.value.slice(names.length).some((cell) => cell !== ""))
    return refused(`: has ${cells.value.length} columns, the header has ${names.length}`);
  const found: (number | null)[] = [];
  for (const [i, name] of names.entries()) {
    const cell = cells.value[i] ?? "";
    const um = cell === "" ? accepted(null) : sheetNumber(cell, style);
    if (!um.ok) return refused(`, ${name}: ${um.reason}`);
    if (um.value !== null && !(um.value > 0 && um.value <= MOST_UM))
      return refused(`, ${name}: an aperture is more than 0 um and at most 1 m`);
    found.push(um.value);
  }
  return accepted(found);
}

/**
 * Measured apertures as CSV: a header `warp_um,weft_um` (or `warp_um` alone), then one aperture a cell in um; a direction
 * with fewer apertures leaves its last cells empty. Lines that begin with `#` are passed over; `;` may separate, and then
 * a comma may begin decimals.
 *
 * @returns the apertures in the order of the file, or one line: what is wrong, where, and what to do
 */
export function readApertures(bytes: Uint8Array): Outcome<AperturesRead> {
  const text = fileText(bytes);
  if (!text.ok) return text;
  const lines = text.value
    .split(/\r\n|[\r\n]/)
    .map((line, i) => ({ number: i + 1, text: line }))
    .filter((line) => line.text.trim() !== "" && !line.text.startsWith("#"));
  const [first, ...rows] = lines;
  if (first === undefined) return refused("has no header line: start with warp_um,weft_um");
  const header = headerOf(first.text);
  if (!header.ok) return refused(`line ${first.number}: ${header.reason}`);
  const style = numberStyle(text.value, header.value.separator);
  const columns: number[][] = header.value.names.map(() => []);
  for (const line of rows) {
    const row = rowOf(line.text, header.value, style);
    if (!row.ok) return refused(`line ${line.number}${row.reason}`);
    for (const [i, um] of row.value.entries()) if (um !== null) columns[i]?.push(um);
  }
  return aperturesOf(header.value, columns);
}

function aperturesOf({ names }: Header, columns: readonly (readonly number[])[]): Outcome<AperturesRead> {
  const column = (name: string) => [...(columns[names.indexOf(name)] ?? [])];
  const [warpUm, weftUm] = [column("warp_um"), column("weft_um")];
  if (warpUm.length === 0) return refused("has no aperture in the column warp_um");
  if (Math.max(warpUm.length, weftUm.length) > MOST) return refused(`has more than ${MOST} apertures in a column`);
  return accepted(weftUm.length === 0 ? { warpUm } : { warpUm, weftUm });
}
