import type { ControlLine } from "./controlAxis.ts";
import type { ControlGlyphs } from "./controlGlyphs.ts";
import { glyphsFor } from "./glyphs.ts";
import { isKnown } from "./known.ts";
import type { PlotArea } from "./plotArea.ts";
import { polyline } from "./polyline.ts";

export interface ControlPoint {
  /** Null is a gap. */
  readonly y: number | null;
  readonly sign: "point" | "signal" | "leftOut";
}

/** Columns from one test to the next at most; from this many on each test has its own dot. */
const FARTHEST = 6;
const ROOM_FOR_DOTS = 2;

/** The column of each test: the newest at the right edge, evenly apart; crowded ones share columns. */
export function columnsOfTests(tests: number, columns: number): readonly number[] {
  const last = Math.max(0, columns - 1);
  const apart = Math.min(FARTHEST, last / Math.max(1, tests - 1));
  return Array.from({ length: tests }, (_, i) => last - Math.round((tests - 1 - i) * apart));
}

/** Where tests are drawn. */
export interface Sketch {
  readonly area: PlotArea;
  /** The column of each test. */
  readonly at: readonly number[];
  readonly glyphs: ControlGlyphs;
  readonly ascii: boolean;
  /** From and to where the upright axis reaches, and what one row is of it. */
  readonly from: number;
  readonly to: number;
  readonly rowHeight: number;
  /** Cells that hold a line already. */
  readonly lined: Set<string>;
}

/** Each column has the height of the line at its nearest test; where lines share a cell they take turns. */
export function drawLine(sketch: Sketch, { kind, ys }: ControlLine): void {
  const { area, at, glyphs, from, to, rowHeight, lined } = sketch;
  let test = 0;
  const isNearer = (column: number) => Math.abs((at[test + 1] ?? 0) - column) <= Math.abs((at[test] ?? 0) - column);
  for (let column = at[0] ?? area.columns; column < area.columns; column += 1) {
    while (test + 1 < at.length && isNearer(column)) test += 1;
    const y = ys[test];
    if (!isKnown(y) || y < from || y > to) continue;
    const cell = `${column} ${Math.round((y - from) / rowHeight)}`;
    if (!lined.has(cell) || column % 2 === 1) area.mark(column + 0.5, y, glyphs[kind]);
    lined.add(cell);
  }
}

/** An upright over all rows before a test. */
export function drawChange({ area, at, glyphs, from, rowHeight }: Sketch, test: number): void {
  const column = at[test];
  if (column === undefined) return;
  for (let row = 0; row < area.rows; row += 1) area.mark(column + 0.5, from + row * rowHeight, glyphs.change);
}

/** Where tests share columns a line would lose their extremes: each column shows how far its tests reach. */
function drawReach({ area, at, glyphs, rowHeight }: Sketch, points: readonly ControlPoint[]): void {
  for (let column = 0; column < area.columns; column += 1) {
    const ys = points.flatMap(({ y }, i) => (at[i] === column && isKnown(y) ? [y] : []));
    if (ys.length === 0) continue;
    const [low, high] = [Math.min(...ys), Math.max(...ys)];
    for (let y = low; y < high; y += rowHeight) area.mark(column + 0.5, y, glyphs.reach);
    area.mark(column + 0.5, high, glyphs.reach);
  }
}

function drawJoined({ area, at, ascii }: Sketch, points: readonly ControlPoint[]): void {
  const heightAt = polyline(points.map(({ y }, i) => ({ x: at[i] ?? 0, y: isKnown(y) ? y : null })));
  area.edges(
    Array.from({ length: area.columns }, (_, column) => heightAt(column)),
    glyphsFor(ascii).curve,
  );
}

function drawSign({ area, at, glyphs }: Sketch, points: readonly ControlPoint[], sign: ControlPoint["sign"]): void {
  for (const [i, { y, sign: its }] of points.entries())
    if (its === sign && isKnown(y)) area.mark((at[i] ?? 0) + 0.5, y, glyphs[sign]);
}

/** One run of tests: joined where each has a column, else as a band; dots where there is room, signals always. */
export function drawRun(sketch: Sketch, points: readonly ControlPoint[]): void {
  const { area } = sketch;
  const crowded = points.length > area.columns;
  if (crowded) drawReach(sketch, points);
  else drawJoined(sketch, points);
  const apart = (area.columns - 1) / Math.max(1, points.length - 1);
  const newestOnly = points.map((point, i) => (i < points.length - 1 ? { ...point, y: null } : point));
  drawSign(sketch, crowded || apart < ROOM_FOR_DOTS ? newestOnly : points, "point");
  drawSign(sketch, points, "leftOut");
  drawSign(sketch, points, "signal");
}
