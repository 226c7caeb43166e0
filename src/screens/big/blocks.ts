/** Figures and the few letters of sieve names, five rows high: `#` is drawn. */
const GLYPHS: Readonly<Record<string, string>> = {
  "0": ".##. #..# #..# #..# .##.",
  "1": "..#. .##. ..#. ..#. .###",
  "2": "###. ...# .##. #... ####",
  "3": "###. ...# .##. ...# ###.",
  "4": "#..# #..# #### ...# ...#",
  "5": "#### #... ###. ...# ###.",
  "6": ".##. #... ###. #..# .##.",
  "7": "#### ...# ..#. .#.. .#..",
  "8": ".##. #..# .##. #..# .##.",
  "9": ".##. #..# .### ...# .##.",
  ".": ". . . . #",
  ",": ".. .. .. .# #.",
  "-": "... ... ### ... ...",
  "+": "... .#. ### .#. ...",
  _: ".. .. .. .. ##",
  " ": ".. .. .. .. ..",
  m: "..... ####. #.#.# #.#.# #.#.#",
  u: ".... #..# #..# #..# .###",
  p: ".... ###. #..# ###. #...",
  a: ".... .### #..# #..# .###",
  n: ".... ###. #..# #..# #..#",
  g: ".### #..# .### ...# .##.",
  k: "#... #.#. ##.. #.#. #..#",
  B: "###. #..# ###. #..# ###.",
  d: "...# ...# .### #..# .###",
  e: ".... .##. #### #... .###",
  f: ".## #.. ##. #.. #..",
  o: ".... .##. #..# #..# .##.",
};

export const GLYPH_ROWS = 5;

export interface Scale {
  readonly across: number;
  readonly down: number;
}

/** A character cell is about twice as high as wide: twice as many across as down looks square. */
const SCALES: readonly Scale[] = [6, 5, 4, 3, 2, 1].flatMap((down) => [
  { across: 2 * down, down },
  { across: 2 * down - 1, down },
]);

const rowsOf = (character: string): readonly string[] => (GLYPHS[character] ?? "").split(" ");
/** A stroke's width apart, so that two figures never run together. */
const gapOf = ({ across }: Scale): number => across;

/** Whether every character of a text has a block figure. */
export const isDrawn = (text: string): boolean => [...text].every((character) => character in GLYPHS);

/** Columns that a text takes in block figures. */
export const blockColumns = (text: string, scale: Scale): number =>
  [...text].reduce((sum, c) => sum + (rowsOf(c)[0]?.length ?? 0) * scale.across + gapOf(scale), -gapOf(scale));

/** The largest scale at which a text fits; null when it has no block figures or fits at none. */
export function scaleFor(text: string, columns: number, rows: number): Scale | null {
  if (text === "" || !isDrawn(text)) return null;
  return SCALES.find((s) => GLYPH_ROWS * s.down <= rows && blockColumns(text, s) <= columns) ?? null;
}

/** A text in block figures, one string a row, all as wide. */
export function blockRows(text: string, scale: Scale): readonly string[] {
  const gap = " ".repeat(gapOf(scale));
  return Array.from({ length: GLYPH_ROWS }, (_, row) =>
    [...text]
      .map((c) => [...(rowsOf(c)[row] ?? "")].map((p) => (p === "#" ? "█" : " ").repeat(scale.across)).join(""))
      .join(gap),
  ).flatMap((drawn) => Array.from({ length: scale.down }, () => drawn));
}
