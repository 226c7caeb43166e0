import { type Canvas, createCanvas } from "./canvas.ts";
import { fitLabels } from "./fitLabels.ts";
import type { Glyphs, Symbols } from "./glyphs.ts";
import { drawStretches } from "./stretch.ts";

/** A named place on an axis, in the axis' own coordinates (a logarithm, a probability, ...). */
export interface Tick {
  readonly at: number;
  readonly label: string;
  /** Shown once, behind the last label of those that share it. */
  readonly unit?: string;
}

export interface Axis {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly Tick[];
}

export interface PlotAreaOptions {
  /** Without ticks the drawing has no horizontal axis, and all rows are for the curve. */
  readonly x: Axis;
  readonly y: Axis;
  readonly width: number;
  readonly height: number;
  readonly glyphs: Glyphs;
}

/** A drawing with its axes, on which curves and marks are put in the coordinates of the axes. */
export interface PlotArea {
  readonly columns: number;
  readonly rows: number;
  mark(x: number, y: number, glyph: string): void;
  /** A function of x as a line; null is a gap. */
  curve(yAt: (x: number) => number | null, symbols: Symbols): void;
  /** A line whose height is given at each edge of a column, from the left. */
  edges(ys: readonly (number | null)[], symbols: Symbols): void;
  /** Fills each column up to its height, by eighths of a cell. */
  fill(yAt: (x: number) => number | null): void;
  /** A dotted upright from a place down to the axis, behind everything. */
  dropLine(x: number, y: number): void;
  /** A line of text in the middle. */
  note(text: string): void;
  text(): string[];
}

const AXIS_ROWS = 2;
const NARROWEST = 6;
const LOWEST = 2;

const share = (value: number, { from, to }: Axis): number => (to > from ? (value - from) / (to - from) : 0.5);

interface Box {
  readonly left: number;
  readonly columns: number;
  readonly rows: number;
}

/** What is left for the curve beside and above the axes; an axis that leaves too little is not drawn. */
function boxFor({ x, y, width, height }: PlotAreaOptions): Box {
  const labels = Math.max(0, ...y.ticks.map((tick) => tick.label.length)) + 1;
  const left = width - labels >= NARROWEST ? labels : 0;
  const below = x.ticks.length > 0 && height - AXIS_ROWS >= LOWEST ? AXIS_ROWS : 0;
  return { left, columns: Math.max(0, width - left), rows: Math.max(0, height - below) };
}

function drawUprightAxis(canvas: Canvas, box: Box, { y, glyphs }: PlotAreaOptions, rowOf: (y: number) => number): void {
  if (box.left === 0) return;
  for (let row = 0; row < box.rows; row += 1) canvas.put(box.left - 1, row, glyphs.upright);
  const taken = new Set<number>();
  for (const { at, label } of y.ticks) {
    const row = rowOf(at);
    if (taken.has(row)) continue;
    taken.add(row);
    canvas.put(0, row, label.padStart(box.left - 1) + glyphs.tickLeft);
  }
}

function drawLevelAxis(
  canvas: Canvas,
  box: Box,
  { x, glyphs, height }: PlotAreaOptions,
  columnOf: (x: number) => number,
) {
  if (box.rows === height) return;
  canvas.put(Math.max(0, box.left - 1), box.rows, box.left > 0 ? glyphs.corner : "");
  canvas.put(box.left, box.rows, glyphs.level.repeat(box.columns));
  const labels = x.ticks.map((tick) => ({ ...tick, column: box.left + columnOf(tick.at) }));
  for (const { column } of labels) canvas.put(column, box.rows, glyphs.tickBelow);
  for (const { column, text } of fitLabels(labels, canvas.width)) canvas.put(column, box.rows + 1, text);
}

/** Axes in a drawing of exactly `width` x `height`. Ticks of y come most important first: two never share a row. */
export function createPlotArea(options: PlotAreaOptions): PlotArea {
  const { x, y, glyphs } = options;
  const canvas = createCanvas(options.width, options.height);
  const box = boxFor(options);
  const { left, columns, rows } = box;
  const heightOf = (value: number) => share(value, y) * (rows - 1);
  const rowOf = (value: number) => rows - 1 - Math.round(Math.min(rows - 1, Math.max(0, heightOf(value))));
  const columnOf = (value: number) => Math.min(columns - 1, Math.max(0, Math.floor(share(value, x) * columns)));
  const xAt = (edge: number) => x.from + (edge / columns) * (x.to - x.from);

  const edges: PlotArea["edges"] = (ys, symbols) =>
    drawStretches(
      ys.slice(0, columns + 1).map((value) => (value === null ? null : heightOf(value))),
      rows,
      symbols,
      (column, row, glyph) => canvas.put(left + column, row, glyph),
    );
  const fillColumn = (column: number, height: number) => {
    const eighths = height > 0 ? Math.max(1, Math.round(Math.min(rows, height) * 8)) : 0;
    for (let row = 0; row < rows; row += 1) {
      const filled = Math.min(8, Math.max(0, eighths - 8 * (rows - 1 - row)));
      if (filled > 0) canvas.put(left + column, row, glyphs.rising[filled] ?? " ");
    }
  };

  drawUprightAxis(canvas, box, options, rowOf);
  drawLevelAxis(canvas, box, options, columnOf);
  return {
    columns,
    rows,
    edges,
    mark: (px, py, glyph) => canvas.put(left + columnOf(px), rowOf(py), glyph),
    curve: (yAt, symbols) =>
      edges(
        Array.from({ length: columns + 1 }, (_, edge) => yAt(xAt(edge))),
        symbols,
      ),
    fill(yAt) {
      for (let column = 0; column < columns; column += 1) {
        const value = yAt(xAt(column + 0.5));
        if (value !== null) fillColumn(column, share(value, y) * rows);
      }
    },
    dropLine(px, py) {
      for (let row = rowOf(py) + 1; row < rows; row += 1) canvas.putBehind(left + columnOf(px), row, glyphs.guide);
    },
    note: (text) =>
      canvas.put(left + Math.max(1, Math.floor((columns - text.length) / 2)), Math.floor((rows - 1) / 2), text),
    text: canvas.rows,
  };
}
