import stringWidth from "string-width";

const MARK = "·";
/** Letters, signs and lines that are drawable as they are and one column wide each: nearly all that is ever shown. */
const PLAIN =
  /^[\x20-\x7e\xa1-\xac\xae-\u02ff\u0391-\u03a1\u03a3-\u03c9\u2010-\u2027\u2190-\u22ff\u2500-\u25fc\u2713\u2717\u2800-\u28ff]*$/;
/** A whole escape sequence is one oddity, not one and its letters. */
const ESCAPE_SEQUENCE = /(?:\x1b\[|\x9b)[\x30-\x3f]*[\x20-\x2f]*[\x40-\x7e]|\x1b[\]P^_X][^\x00-\x1f]*(?:\x07|\x1b\\)/g;
/** Controls, bidi and other format characters, lone surrogates, private and unassigned code points, unseen fillers. */
const UNDRAWABLE = /[\p{C}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]/gu;
/** The same but the ends of lines, which a text of several lines keeps. */
const UNDRAWABLE_IN_LINES = /(?!\r?\n)[\p{C}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]/gu;
const PLAIN_LINES = /^[\x20-\x7e\n]*$/;
const SPACES = /\p{Zs}/gu;
/** Combining marks with nothing to sit on, and those beyond the second on one character. */
const STRAY_MARKS = /(^|[\p{Z}·]|\p{M}{2})\p{M}+/gu;

const graphemes = new Intl.Segmenter();

/** Columns that a terminal needs for a text. */
export const columnsOf = (text: string): number => (PLAIN.test(text) ? text.length : stringWidth(text));

/**
 * Any text from a person, a file or a device, safe to draw on one row: each escape sequence, control character, bidi
 * override, zero-width or otherwise unseen character becomes one visible `·`; every kind of space becomes a plain one.
 * What is drawable stays as it is, so that a second pass changes nothing.
 */
export function drawable(text: string): string {
  if (PLAIN.test(text)) return text;
  return text
    .replace(ESCAPE_SEQUENCE, MARK)
    .replace(UNDRAWABLE, MARK)
    .replace(SPACES, " ")
    .normalize("NFC")
    .replace(STRAY_MARKS, `$1${MARK}`);
}

/**
 * A whole page or table on its way out, safe for whatever terminal it comes to: line ends (LF, CR LF) stay, each escape
 * sequence and each other character that `drawable` would replace becomes one `·`. What is drawable already, and JSON as
 * `printedJson` writes it, stays as it is.
 */
export function printable(text: string): string {
  if (PLAIN_LINES.test(text)) return text;
  return text.replace(ESCAPE_SEQUENCE, MARK).replace(UNDRAWABLE_IN_LINES, MARK);
}

const asUnits = (character: string): string =>
  Array.from(
    { length: character.length },
    (_, i) => `\\u${character.charCodeAt(i).toString(16).padStart(4, "0")}`,
  ).join("");

/**
 * JSON as it is printed: what a terminal could obey or would not show stands as `\uXXXX`, so that whoever parses it gets
 * every character as it was recorded and whoever looks at it sees where one is.
 *
 * @param indent spaces a level; 0 packs all into one line
 */
export const printedJson = (content: unknown, indent = 2): string =>
  JSON.stringify(content, null, indent).replace(UNDRAWABLE_IN_LINES, asUnits);

function headOf(text: string, columns: number): string {
  if (PLAIN.test(text)) return text.slice(0, Math.max(0, columns));
  let head = "";
  let room = columns;
  for (const { segment } of graphemes.segment(text)) {
    room -= columnsOf(segment);
    if (room < 0) break;
    head += segment;
  }
  return head;
}

/**
 * A text made drawable and cut to at most `columns` columns as a terminal counts them; what was cut shows as `ellipsis`
 * ("..." where the terminal has no Unicode), itself cut if there is no room for it.
 */
export function clip(text: string, columns: number, ellipsis = "…"): string {
  const shown = drawable(text);
  if (columnsOf(shown) <= columns) return shown;
  const tail = headOf(ellipsis, Math.max(0, columns));
  return headOf(shown, columns - columnsOf(tail)) + tail;
}

export type Align = "left" | "right" | "centre";

/** A text made drawable, cut and filled with spaces to exactly `columns` columns. */
export function pad(text: string, columns: number, align: Align = "left", ellipsis = "…"): string {
  const shown = clip(text, columns, ellipsis);
  const spare = Math.max(0, columns - columnsOf(shown));
  const before = align === "left" ? 0 : align === "right" ? spare : Math.floor(spare / 2);
  return " ".repeat(before) + shown + " ".repeat(spare - before);
}
