/** A grid of cells, one character each; what falls outside is not drawn. Row 0 is the top. */
export interface Canvas {
  readonly width: number;
  readonly height: number;
  put(column: number, row: number, text: string): void;
  /** Draws only where nothing is yet. */
  putBehind(column: number, row: number, glyph: string): void;
  /** The drawing: `height` rows of `width` columns. */
  rows(): string[];
}

export function createCanvas(width: number, height: number): Canvas {
  const columns = Math.max(0, Math.floor(width));
  const cells = Array.from({ length: Math.max(0, Math.floor(height)) }, () => new Array<string>(columns).fill(" "));

  const putGlyph = (column: number, row: number, glyph: string, behind: boolean) => {
    const cell = cells[row]?.[column];
    if (cell === undefined || (behind && cell !== " ")) return;
    cells[row]?.splice(column, 1, glyph);
  };

  return {
    width: columns,
    height: cells.length,
    put(column, row, text) {
      for (const [i, glyph] of [...text].entries()) putGlyph(column + i, row, glyph, false);
    },
    putBehind: (column, row, glyph) => putGlyph(column, row, glyph, true),
    rows: () => cells.map((row) => row.join("")),
  };
}
