import { glyphsFor } from "./glyphs.ts";
import { createPlotArea, type Tick } from "./plotArea.ts";

export interface GridChart {
  /** In the coordinates of the grid (a logarithm, a probability, ...), as are the ticks. */
  readonly points: readonly { readonly x: number; readonly y: number }[];
  /** The fitted line; null where it has no value. */
  readonly line?: (x: number) => number | null;
  /** In order from the left. */
  readonly xTicks: readonly Tick[];
  /** The most important first: where two would share a row, the first one stays. */
  readonly yTicks: readonly Tick[];
  readonly width: number;
  readonly height: number;
  readonly ascii?: boolean;
}

const MARGIN = 0.02;

function rangeOf(values: readonly number[]): { from: number; to: number } {
  const finite = values.filter(Number.isFinite);
  if (finite.length === 0) return { from: 0, to: 1 };
  const from = Math.min(...finite);
  const to = Math.max(...finite);
  const margin = to > from ? MARGIN * (to - from) : 1;
  return { from: from - margin, to: to + margin };
}

/**
 * Points and a line on a grid on which a law is straight: the caller transforms, and labels the transformed places. The
 * grid reaches over all points and ticks; the line is drawn as far as it stays on it. `height` rows of exactly `width`
 * columns.
 */
export function gridChart({ points, line, xTicks, yTicks, width, height, ascii }: GridChart): string[] {
  const glyphs = glyphsFor(ascii);
  const x = { ...rangeOf([...points.map((p) => p.x), ...xTicks.map((t) => t.at)]), ticks: xTicks };
  const y = { ...rangeOf([...points.map((p) => p.y), ...yTicks.map((t) => t.at)]), ticks: yTicks };
  const area = createPlotArea({ x, y, width, height, glyphs });
  const onGrid = (at: number) => {
    const value = line?.(at) ?? null;
    return value !== null && value >= y.from && value <= y.to ? value : null;
  };
  area.curve(onGrid, glyphs.curve);
  for (const point of points) {
    if (Number.isFinite(point.x) && Number.isFinite(point.y)) area.mark(point.x, point.y, glyphs.measured);
  }
  return area.text();
}
