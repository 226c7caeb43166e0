import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { apertureOf } from "../series/designation.ts";
import { isSieveName } from "./fields.ts";
import { cellsOf, NO_COLUMN, type SheetColumns } from "./sheetColumns.ts";
import { type NumberStyle, sheetNumber } from "./sheetNumber.ts";

/** One row as the JSON form would have it, not yet checked against the schema. */
export type RowJson = Readonly<Record<string, unknown>>;

/**
 * One line under the header. Nothing but separators, as spreadsheets leave behind, is no row: null.
 *
 * @returns the row, or the column and what is wrong in it
 */
export function sheetRow(line: string, columns: SheetColumns, style: NumberStyle): Outcome<RowJson | null> {
  if (line.startsWith("#")) return refused(": a line that begins with # stands only before the header");
  const read = cellsOf(line, style.separator);
  if (!read.ok) return refused(`: ${read.reason}`);
  const cells = withoutTail(read.value, columns.names.length);
  if (cells.every((cell) => cell === "")) return accepted(null);
  if (cells.length !== columns.names.length)
    return refused(`: has ${cells.length} columns, the header has ${columns.names.length}`);
  return row(cells, columns, style);
}

function withoutTail(cells: readonly string[], width: number): readonly string[] {
  return cells.slice(width).every((cell) => cell === "") ? cells.slice(0, width) : cells;
}

function row(cells: readonly string[], columns: SheetColumns, style: NumberStyle): Outcome<RowJson> {
  const isPan = /^pan$/i.test(cells[columns.aperture] ?? "");
  const sieve = cells[columns.sieve] ?? "";
  const json: Record<string, unknown> = { ...(isPan ? { pan: true } : {}), ...(sieve === "" ? {} : { sieve }) };
  for (const [field, column, times10To] of numericColumns(columns, isPan)) {
    const cell = cells[column] ?? "";
    const number = field === "apertureUm" && isSieveName(cell) ? apertureOf(cell) : sheetNumber(cell, style, times10To);
    if (!number.ok) return refused(`, ${columns.names[column]}: ${number.reason}`);
    if (field === "apertureUm" && number.value <= 0)
      return refused(`, ${columns.names[column]}: must be above 0; the pan is written as the word pan`);
    json[field] = number.value;
  }
  return accepted(json);
}

function numericColumns(columns: SheetColumns, isPan: boolean): readonly (readonly [string, number, number])[] {
  const aperture = ["apertureUm", isPan ? NO_COLUMN : columns.aperture, columns.inMm ? 3 : 0] as const;
  const masses = [["emptyG", columns.empty, 0] as const, ["fullG", columns.full, 0] as const];
  return [aperture, ...masses, ["netG", columns.net, 0] as const].filter(([, column]) => column !== NO_COLUMN);
}
