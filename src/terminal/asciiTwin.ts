import { columnsOf } from "./sanitise.ts";

/** One ASCII character for each sign that the program draws itself, so that a row keeps its columns. */
const TWINS: Readonly<Record<string, string>> = Object.fromEntries(
  [
    ["✓", "+"],
    ["✗×", "x"],
    ["▸▶", ">"],
    ["◂◀", "<"],
    ["─╌┄┈━–—−‐‑▬", "-"],
    ["│╎┆┊┃┤├▌▐▏▕║", "|"],
    ["┼┬┴┌┐└┘╴╶", "+"],
    ["═", "="],
    ["╭╮", "."],
    ["╰╯‘’", "'"],
    ["“”", '"'],
    ["●○◦", "o"],
    ["◆◇■□█▇▆▅", "#"],
    ["▄▃▒", "="],
    ["▂▁░", "_"],
    ["▴▲△↑", "^"],
    ["▾▼▽↓", "v"],
    ["→", ">"],
    ["←", "<"],
    ["…·", "."],
    ["•", "*"],
    ["±", "~"],
    ["≈", "~"],
    ["≤", "<"],
    ["≥", ">"],
    ["µμ", "u"],
    ["σ", "s"],
    ["Δ", "d"],
    ["φ", "f"],
    ["°", "o"],
    ["²", "2"],
    ["³", "3"],
    ["½", "h"],
    ["ß", "s"],
    ["øØ", "o"],
    ["æœ", "e"],
    ["łŁ", "l"],
    ["đĐ", "d"],
    ["€", "E"],
  ].flatMap(([signs = "", twin = "?"]) => [...signs].map((sign) => [sign, twin])),
);

/** Signs that one character alone would make say something else take the space beside them: a bound that counts stays one. */
const spelled = (row: string): string =>
  row
    .replace(/≤ | ≤(?=\S)/g, "<=")
    .replace(/≥ | ≥(?=\S)/g, ">=")
    .replace(/ ±(?=\d)/g, "+-");

const graphemes = new Intl.Segmenter();

function twinOf(grapheme: string): string {
  const known = TWINS[grapheme];
  if (known) return known;
  const columns = columnsOf(grapheme);
  const letters = grapheme.normalize("NFKD").replace(/[^\x20-\x7e]/g, "");
  return letters.length === columns ? letters : "?".repeat(columns);
}

/**
 * A row for a terminal that has no Unicode: each sign becomes an ASCII one of as many columns, accents go, what has no
 * twin is `?`. ASCII, colour sequences among it, stays.
 */
export function asciiTwin(row: string): string {
  return spelled(row).replace(/[^\x00-\x7f]+/g, (stretch) =>
    Array.from(graphemes.segment(stretch), ({ segment }) => twinOf(segment)).join(""),
  );
}
