import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { Fault } from "./faults.ts";
import { type LocatedSheet, locatedSheet } from "./locatedSheet.ts";
import { type SheetColumns, sheetColumns } from "./sheetColumns.ts";
import { KEY_OF_FIELD, type SheetKeys, type SheetLine, sheetKeys } from "./sheetKeys.ts";
import { type NumberStyle, numberStyle } from "./sheetNumber.ts";
import { type RowJson, sheetRow } from "./sheetRow.ts";
import { MOST_SIEVES } from "./sheetRules.ts";

interface Rows {
  readonly json: readonly RowJson[];
  readonly lines: readonly number[];
}

/**
 * A weighing sheet as CSV: `#` lines, a header, one row a sieve in any order, the pan by the word `pan`. Numbers take a
 * point; with `;` between the columns also a comma.
 *
 * @returns the sheet, or one line: the first fault with its line and column name
 */
export function readSheetCsv(text: string): Outcome<LocatedSheet> {
  const lines = text.split(/\r\n|[\r\n]/).map((line, i) => ({ number: i + 1, text: line }));
  const header = lines.find((line) => line.text.trim() !== "" && !line.text.startsWith("#"));
  if (!header) return refused("has no header line: start with aperture_um,empty_g,full_g or aperture_um,net_g");
  const read = sheetColumns(header.text);
  if (!read.ok) return refused(`line ${header.number}: ${read.reason}`);
  const { columns, separator } = read.value;
  const style = numberStyle(text, separator);
  const keys = sheetKeys(lines.slice(0, header.number - 1), style, columns.names.length);
  if (!keys.ok) return keys;
  const rows = sheetRows(lines.slice(header.number), columns, style);
  if (!rows.ok) return rows;
  if (rows.value.json.length === 0) return refused(`line ${header.number}: no weighing stands below the header`);
  const json = { schema: "sievewright.sheet/1", ...keys.value.fields, weighings: rows.value.json };
  return locatedSheet(json, { charge: "charge_g", tell: teller(columns, keys.value, rows.value) });
}

function sheetRows(lines: readonly SheetLine[], columns: SheetColumns, style: NumberStyle): Outcome<Rows> {
  const json: RowJson[] = [];
  const numbers: number[] = [];
  for (const line of lines) {
    const row = sheetRow(line.text, columns, style);
    if (!row.ok) return refused(`line ${line.number}${row.reason}`);
    if (row.value === null) continue;
    json.push(row.value);
    numbers.push(line.number);
    if (json.length > MOST_SIEVES + 1)
      return refused(`line ${line.number}: has more than ${MOST_SIEVES} sieves and a pan`);
  }
  return accepted({ json, lines: numbers });
}

function teller(columns: SheetColumns, keys: SheetKeys, rows: Rows): (fault: Fault) => string {
  const columnOf: Readonly<Record<string, string>> = {
    apertureUm: columns.inMm ? "aperture_mm" : "aperture_um",
    emptyG: "empty_g",
    fullG: "full_g",
    netG: "net_g",
  };
  return ({ path, reason }) => {
    const [first = "", row, field] = path.map(String);
    const key = KEY_OF_FIELD[first];
    if (key !== undefined) return `line ${keys.lineOf[first] ?? "?"}, ${key}: ${reason}`;
    if (row === undefined) return `the sheet ${reason}`;
    const line = `line ${rows.lines[Number(row)] ?? "?"}`;
    return field === undefined ? `${line}: ${reason}` : `${line}, ${columnOf[field] ?? field}: ${reason}`;
  };
}
