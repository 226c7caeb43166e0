import { say } from "../words/say.ts";
import { type Line, line, textOf } from "./line.ts";

const isBlank = (l: Line): boolean => textOf(l).trim() === "";

/** Without the blank rows at the end, which nobody misses. */
const withoutEnd = (lines: readonly Line[]): readonly Line[] =>
  lines.slice(0, lines.findLastIndex((l) => !isBlank(l)) + 1);

/** The row that must stay in sight: where something is typed, else where the mark is. */
function rowInHand(lines: readonly Line[]): number {
  const typed = lines.findLastIndex((l) => textOf(l).includes("▌"));
  return typed >= 0 ? typed : lines.findIndex((l) => textOf(l).trimStart().startsWith("▸"));
}

/** Rows above the one in hand that are kept in sight. */
const ROWS_ABOVE = 2;

/** Where a body that is too long begins before anybody scrolls: at its top, unless the row in hand lies below. */
function beginsAt(lines: readonly Line[], rows: number): number {
  const inHand = rowInHand(lines);
  return inHand < rows - 1 ? 0 : Math.min(inHand - ROWS_ABOVE, lines.length - (rows - 1));
}

/** How far a body can be scrolled up (below 0) and down from where it begins. */
export function scrollBounds(body: readonly Line[], rows: number): { readonly least: number; readonly most: number } {
  const lines = withoutEnd(body);
  if (lines.length <= rows) return { least: 0, most: 0 };
  const begins = beginsAt(lines, rows);
  return { least: 0 - begins, most: Math.max(0, lines.length - (rows - 1) - begins) };
}

/** The rows of a body that there is room for, so many further down; where there are more, the last one tells how to reach them. */
export function scrolledBody(body: readonly Line[], rows: number, by: number): readonly Line[] {
  const lines = withoutEnd(body);
  if (lines.length <= rows) return lines;
  const { least, most } = scrollBounds(body, rows);
  const from = beginsAt(lines, rows) + Math.max(least, Math.min(most, by));
  const shown = lines.slice(from, from + rows - 1);
  const where = say`  rows ${from + 1} to ${from + shown.length} of ${lines.length}: Page up, Page down`;
  return [...shown, line(where, "dim")];
}
