import { say } from "../words/say.ts";
import { type ControlLine, controlAxis } from "./controlAxis.ts";
import { type ControlGlyphs, controlGlyphs } from "./controlGlyphs.ts";
import { type ControlPoint, columnsOfTests, drawChange, drawLine, drawRun, type Sketch } from "./controlRun.ts";
import { glyphsFor } from "./glyphs.ts";
import { isKnown } from "./known.ts";
import { createPlotArea } from "./plotArea.ts";

export type { ControlLine } from "./controlAxis.ts";
export type { ControlPoint } from "./controlRun.ts";

export interface ControlDrawing {
  /** Runs of points over the same tests, oldest first; most charts have one, sums have two. */
  readonly series: readonly (readonly ControlPoint[])[];
  readonly lines: readonly ControlLine[];
  /** Places of the first tests after a logged change. */
  readonly changes?: readonly number[];
  /** The test in hand. */
  readonly cursor?: number | null;
  /** What stands below the first and the last test. */
  readonly ends?: readonly [string, string];
  readonly width: number;
  readonly height: number;
  readonly ascii?: boolean;
}

const AXIS_ROWS = 2;
const LOWEST = 3;

/** The axis with the mark under the test in hand, and the two ends below it. */
function axisRows(drawing: ControlDrawing, left: number, at: readonly number[], glyphs: ControlGlyphs): string[] {
  const { corner, level } = glyphsFor(drawing.ascii);
  const cells = [...level.repeat(Math.max(0, drawing.width - left))];
  const cursor = drawing.cursor ?? null;
  const column = cursor === null ? undefined : at[cursor];
  if (column !== undefined && column < cells.length) cells[column] = glyphs.cursor;
  const [first, last] = drawing.ends ?? ["", ""];
  const from = left + (at[0] ?? 0);
  const room = drawing.width - last.length;
  const begun = `${" ".repeat(Math.max(0, Math.min(from, room - first.length - 1)))}${first}`;
  const ends = room < begun.length + 1 ? last.padStart(drawing.width) : `${begun.padEnd(room)}${last}`;
  return [`${corner.padStart(left)}${cells.join("")}`, ends].map((row) => row.slice(0, drawing.width));
}

/** An empty drawing with its upright axis, in which each column is one unit wide. */
function sketchOf({ series, lines, width, ascii = false }: ControlDrawing, rows: number): Sketch {
  const tests = Math.max(0, ...series.map((points) => points.length));
  const values = series.flatMap((points) => points.flatMap(({ y }) => (isKnown(y) ? [y] : [])));
  const y = controlAxis(values, lines, rows);
  const sketch = { y, width, height: rows, glyphs: glyphsFor(ascii) };
  const { columns } = createPlotArea({ ...sketch, x: { from: 0, to: 1, ticks: [] } });
  const area = createPlotArea({ ...sketch, x: { from: 0, to: Math.max(1, columns), ticks: [] } });
  if (tests === 0) area.note(say`no test to draw`);
  const rowHeight = (y.to - y.from) / Math.max(1, rows - 1);
  const glyphs = controlGlyphs(ascii);
  return {
    area,
    at: columnsOfTests(tests, columns),
    glyphs,
    ascii,
    from: y.from,
    to: y.to,
    rowHeight,
    lined: new Set(),
  };
}

/** From the back to the front. */
const DEPTH = ["product", "control", "centre"] as const;

/**
 * A run of tests in order of time with its centre line, control limits and the product's limits, the newest test at the
 * right: `height` rows of exactly `width` columns, without colour. Every kind of line and point has its own sign, changes
 * of the line are dotted uprights, the test in hand has a mark below the axis.
 */
export function controlChart(drawing: ControlDrawing): string[] {
  const { series, lines, changes = [], width } = drawing;
  const height = Math.max(0, Math.floor(drawing.height));
  const below = height >= LOWEST + AXIS_ROWS ? AXIS_ROWS : 0;
  const sketch = sketchOf(drawing, height - below);
  for (const change of changes) drawChange(sketch, change);
  const fromBack = DEPTH.flatMap((kind) => lines.filter((line) => line.kind === kind));
  for (const line of fromBack) drawLine(sketch, line);
  for (const points of series) drawRun(sketch, points);
  const left = width - sketch.area.columns;
  return [...sketch.area.text(), ...(below > 0 ? axisRows(drawing, left, sketch.at, sketch.glyphs) : [])];
}
