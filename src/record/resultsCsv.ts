import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { quoted } from "../entry/quoted.ts";
import { fileText } from "./fileText.ts";
import { cellsOf, NO_COLUMN, type Separator } from "./sheetColumns.ts";
import { type NumberStyle, numberStyle, sheetNumber } from "./sheetNumber.ts";

/** One result of one portion at one station. */
export interface StationResult {
  readonly station: string;
  /** What was determined, where the file has several: "passingPct@500"; else "value". */
  readonly figure: string;
  readonly value: number;
}

const KNOWN = ["station", "portion", "figure", "value"];
const [MOST_ROWS, LONGEST] = [20_000, 60];

interface Columns {
  readonly count: number;
  readonly at: (name: string) => number;
}

function columnsOf(header: string, separator: Separator): Outcome<Columns> {
  const names = cellsOf(header, separator);
  if (!names.ok) return names;
  const unknown = names.value.find((name) => !KNOWN.includes(name));
  if (unknown !== undefined) return refused(`unknown column ${quoted(unknown)}: known are ${KNOWN.join(", ")}`);
  const twice = names.value.find((name, i) => names.value.indexOf(name) !== i);
  if (twice !== undefined) return refused(`the column ${twice} stands twice`);
  const missing = ["station", "value"].find((name) => !names.value.includes(name));
  if (missing !== undefined) return refused(`needs the column ${missing}: known are ${KNOWN.join(", ")}`);
  return accepted({ count: names.value.length, at: (name) => names.value.indexOf(name) });
}

interface Row extends StationResult {
  readonly portion: string;
}

function textFault(text: string, name: string): string | null {
  if (text === "") return `${name}: is empty`;
  if (/[\u0000-\u001f\u007f-\u009f]/.test(text)) return `${name}: holds a control character`;
  return text.length > LONGEST ? `${name}: is longer than ${LONGEST} characters` : null;
}

function rowOf(text: string, { count, at }: Columns, style: NumberStyle): Outcome<Row> {
  const cells = cellsOf(text, style.separator);
  if (!cells.ok) return cells;
  if (cells.value.length !== count) return refused(`has ${cells.value.length} cells, the header ${count}`);
  const cell = (name: string, without: string) => (at(name) === NO_COLUMN ? without : (cells.value[at(name)] ?? ""));
  const station = cell("station", "");
  const figure = cell("figure", "value");
  const fault = textFault(station, "station") ?? textFault(figure, "figure");
  if (fault !== null) return refused(fault);
  const value = sheetNumber(cell("value", ""), style);
  if (!value.ok) return refused(`value: ${value.reason}`);
  return accepted({ station, figure, portion: cell("portion", ""), value: value.value });
}

const keyOf = ({ station, figure, portion }: Row): string => JSON.stringify([station, figure, portion]);

/**
 * Results of several stations as CSV: `#` lines are passed over, then a header of `station,portion,value` (or without
 * `portion`, or with `figure`, where the file has several), a row a result. Numbers as in weighing sheets.
 *
 * @returns the results in the order of the file, or one line: the first fault with its line and column
 */
export function readResultsCsv(bytes: Uint8Array): Outcome<readonly StationResult[]> {
  const file = fileText(bytes);
  if (!file.ok) return file;
  const lines = file.value
    .split(/\r\n|[\r\n]/)
    .map((text, i) => ({ number: i + 1, text }))
    .filter(({ text }) => text.trim() !== "" && !text.startsWith("#"));
  const [header, ...body] = lines;
  if (!header) return refused("has no header line: start with station,portion,value");
  const separator: Separator = header.text.includes(";") ? ";" : ",";
  const columns = columnsOf(header.text, separator);
  if (!columns.ok) return refused(`line ${header.number}: ${columns.reason}`);
  if (body.length === 0) return refused(`line ${header.number}: no result stands below the header`);
  if (body.length > MOST_ROWS) return refused(`has more than ${MOST_ROWS} results`);
  return rowsOf(body, columns.value, numberStyle(file.value, separator));
}

function rowsOf(
  body: readonly { readonly number: number; readonly text: string }[],
  columns: Columns,
  style: NumberStyle,
): Outcome<readonly StationResult[]> {
  const rows: Row[] = [];
  const seen = new Set<string>();
  for (const { number, text } of body) {
    const row = rowOf(text, columns, style);
    if (!row.ok) return refused(`line ${number}: ${row.reason}`);
    const key = keyOf(row.value);
    if (row.value.portion !== "" && seen.has(key))
      return refused(`line ${number}: portion ${quoted(row.value.portion)} of ${row.value.station} stands twice`);
    seen.add(key);
    rows.push(row.value);
  }
  return accepted(rows.map(({ station, figure, value }) => ({ station, figure, value })));
}
