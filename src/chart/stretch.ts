import { plot } from "asciichart";
import type { Symbols } from "./glyphs.ts";
import { isKnown } from "./known.ts";

/** A run of neighbouring heights without a gap, and where it starts. */
interface Stretch {
  readonly from: number;
  readonly heights: number[];
}

function stretchesOf(heights: readonly (number | null)[]): Stretch[] {
  const stretches: Stretch[] = [];
  let open: Stretch | null = null;
  for (const [i, height] of heights.entries()) {
    if (!isKnown(height)) {
      open = null;
    } else if (open) {
      open.heights.push(height);
    } else {
      open = { from: i, heights: [height] };
      stretches.push(open);
    }
  }
  return stretches.filter((stretch) => stretch.heights.length > 1);
}

/** One stretch by asciichart, whose first column is an axis of its own: row 0 is the top, a blank is nothing. */
function drawn({ heights }: Stretch, rows: number, symbols: Symbols): string[] {
  const top = rows - 1;
  const within = heights.map((height) => Math.min(top, Math.max(0, height)));
  return plot([within], { offset: 1, min: 0, max: top, height: top, symbols, format: () => " " })
    .split("\n")
    .map((row) => row.slice(1));
}

/**
 * A line over columns, drawn by asciichart. `heights` are in rows above the bottom (0 to rows - 1, anything beyond is held
 * there), one for each edge of a column, so that n heights make n - 1 columns; null or a number that is none is a gap.
 * Calls `put` for each cell that the line passes.
 */
export function drawStretches(
  heights: readonly (number | null)[],
  rows: number,
  symbols: Symbols,
  put: (column: number, row: number, glyph: string) => void,
): void {
  if (rows < 1) return;
  for (const stretch of stretchesOf(heights)) {
    for (const [row, text] of drawn(stretch, Math.floor(rows), symbols).entries()) {
      for (const [column, glyph] of [...text].entries()) {
        if (glyph !== " ") put(stretch.from + column, row, glyph);
      }
    }
  }
}
