import { stringify } from "csv-stringify/sync";
import type { LogEntry } from "../record/logEntry.ts";
import { entryWords } from "./entryLine.ts";
import { entrySubject } from "./entrySubject.ts";
import { defused } from "./resultCsv.ts";
import { retestWords } from "./retestWords.ts";
import { takenOverNumbers } from "./takenOverWords.ts";

const COLUMNS = [
  "number",
  "at",
  "production_day",
  "kind",
  "by",
  "product",
  "lot",
  "line",
  "sampling_point",
  "test",
  "verdict",
  "disposition",
  "retest",
  "loss_pct",
  "what",
  "empty_taken_over",
] as const;

const rowOf = (cells: readonly (string | number)[]): string =>
  stringify([cells.map((cell) => (typeof cell === "string" ? defused(cell) : cell))], { record_delimiter: "windows" });

export const LOG_CSV_HEADING = rowOf(COLUMNS);

/**
 * One entry of the log as a row of CSV (RFC 4180, CRLF); what it does not tell of is an empty cell. Verdicts are those that
 * were signed; a correction is a row of its own. The last column is the numbers of tests that empty masses come from. A text that a spreadsheet would run gets an apostrophe before it.
 */
export function logCsvRow(entry: LogEntry): string {
  const { product = "", lot = "", line = "" } = entrySubject(entry);
  const { number, at, day, kind, by } = entry;
  const about = [number, at, day, kind, by, product, lot, line];
  if (entry.kind !== "test") return rowOf([...about, "", "", "", "", "", "", entryWords(entry), ""]);
  const { samplingPoint, signed, disposition } = entry.test;
  const said = [samplingPoint, signed.test, signed.product, disposition ?? "", retestWords(entry.test)];
  return rowOf([...about, ...said, signed.lossPct ?? "", entryWords(entry), takenOverNumbers(entry.test)]);
}
