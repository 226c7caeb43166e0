import { clip, columnsOf, pad } from "../terminal/sanitise.ts";
import type { Role } from "../terminal/theme.ts";
import { say } from "../words/say.ts";

/** A stretch of one row drawn in one role. */
export interface Span {
  readonly text: string;
  readonly role: Role;
}

/** One row of a screen. A screen is a list of these, so that its layout is decided before anything is drawn. */
export type Line = readonly Span[];

export const span = (text: string, role: Role = "plain"): Span => ({ text, role });
export const line = (text: string, role: Role = "plain"): Line => [span(text, role)];
export const BLANK: Line = [];

export const textOf = (l: Line): string => l.map((s) => s.text).join("");
export const widthOf = (l: Line): number => l.reduce((columns, s) => columns + columnsOf(s.text), 0);

/** What a row says where it is read aloud instead of drawn: worked out only then. */
const SENTENCES = new WeakMap<Line, () => string>();

/** The same row, with what it says in words. */
export function said(l: Line, sentence: () => string): Line {
  SENTENCES.set(l, sentence);
  return l;
}

/** A row that is not read aloud: the headings of rows that name what they hold, the legend of a drawing. */
export const unsaid = (l: Line): Line => said([...l], () => "");

/** A drawing: read aloud it is one sentence, after whatever stands beside it. */
export const pictured = (lines: readonly Line[], sentence: () => string): Line[] =>
  lines.map((l, row) => said(l, row === lines.length - 1 ? sentence : () => ""));

export const sentenceOf = (l: Line): string | null => SENTENCES.get(l)?.() ?? null;

/** A line cut to a width, with an ellipsis where something is lost. */
export function clipped(l: Line, columns: number): Line {
  if (widthOf(l) <= columns) return l;
  const kept: Span[] = [];
  let room = columns;
  for (const s of l) {
    const width = columnsOf(s.text);
    if (width > room - 1) {
      kept.push({ ...s, text: clip(`${s.text} `.padEnd(room + 1), room) });
      break;
    }
    kept.push(s);
    room -= width;
  }
  return kept;
}

/** Left and right text on one row; what is left is cut first. */
export function spread(left: Line, right: Line, columns: number): Line {
  const room = columns - widthOf(right) - (right.length > 0 ? 1 : 0);
  const head = clipped(left, Math.max(0, room));
  const gap = columns - widthOf(head) - widthOf(right);
  return [...head, span(" ".repeat(Math.max(0, gap))), ...right];
}

/** Two blocks side by side, the left one filled up to its width; each is read aloud in a line of its own. */
export function beside(left: readonly Line[], leftColumns: number, right: readonly Line[]): Line[] {
  const rows = Math.max(left.length, right.length);
  return Array.from({ length: rows }, (_, row) => {
    const sides = [left[row] ?? BLANK, right[row] ?? BLANK] as const;
    const l = clipped(sides[0], leftColumns);
    const gap = " ".repeat(Math.max(0, leftColumns - widthOf(l)));
    return said([...l, span(gap), ...sides[1]], () => sides.map((one) => sentenceOf(one) ?? textOf(one)).join("\n"));
  });
}

/** One cell of a table row. */
export interface Cell {
  readonly text: string;
  readonly columns: number;
  readonly align?: "left" | "right";
  readonly role?: Role;
}

/** A cell whose text never touches the next column, however long it is. */
export const apart = (text: string, columns: number, role: Role = "plain"): Cell => ({
  text: columnsOf(text) < columns ? text : clip(text, columns - 1),
  columns,
  role,
});

/** Cells of a table row, each padded to its column's width. */
export const cells = (parts: readonly Cell[]): Line =>
  parts.map((c) => span(pad(c.text, c.columns, c.align ?? "left"), c.role ?? "plain"));

/** Which rows of a list are shown, in words, where not all are; else nothing. */
export const whereText = (from: number, shown: readonly unknown[], all: readonly unknown[]): string =>
  shown.length < all.length ? say`${from + 1} to ${from + shown.length} of ${all.length}` : "";

/** The same as a row, blank where all are shown. */
export function whereLine(from: number, shown: readonly unknown[], all: readonly unknown[]): Line {
  const told = whereText(from, shown, all);
  return told === "" ? BLANK : line(`    ${told}`, "dim");
}

/** The rows of a list that fit, with the chosen one among them. */
export function windowAround<T>(items: readonly T[], at: number, rows: number): { from: number; shown: readonly T[] } {
  const half = Math.floor(rows / 2);
  const from = Math.max(0, Math.min(at - half, items.length - rows));
  return { from, shown: items.slice(from, from + rows) };
}
