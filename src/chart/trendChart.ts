import { figure } from "../words/figures.ts";
import { glyphsFor } from "./glyphs.ts";
import { isKnown } from "./known.ts";
import { createPlotArea, type PlotArea, type Tick } from "./plotArea.ts";
import { polyline } from "./polyline.ts";
import { valueTicks } from "./valueAxis.ts";

export interface TrendChart {
  readonly min?: number | null;
  readonly max?: number | null;
  readonly width: number;
  readonly height: number;
  readonly ascii?: boolean;
}

/** Columns from one value to the next; from this many on each value has its own dot. */
const FARTHEST = 6;
const ROOM_FOR_DOTS = 3;

const limitTick = (at: number): Tick => ({ at, label: figure(String(at)) });

function axisOf(values: readonly number[], limits: readonly number[], rows: number) {
  const all = [...values, ...limits];
  const least = all.length > 0 ? Math.min(...all) : 0;
  const greatest = all.length > 0 ? Math.max(...all) : 0;
  const margin = greatest > least ? 0.05 * (greatest - least) : Math.abs(greatest) * 0.05 || 1;
  const [from, to] = [least - margin, greatest + margin];
  return { from, to, ticks: [...limits.map(limitTick), ...valueTicks(from, to, rows)] };
}

/** The newest value on the right edge, older ones to its left as far as there is room. */
function drawValues(area: PlotArea, values: readonly (number | null)[], glyphs: ReturnType<typeof glyphsFor>): void {
  const { columns } = area;
  const apart = Math.max(1, Math.min(FARTHEST, Math.floor((columns - 1) / Math.max(1, values.length - 1))));
  const shown = values.slice(-Math.floor((columns - 1) / apart) - 1);
  const places = shown.map((y, i) => ({ x: columns - 1 - (shown.length - 1 - i) * apart, y }));
  const heightAt = polyline(places);
  area.edges(
    Array.from({ length: columns }, (_, column) => heightAt(column)),
    glyphs.curve,
  );
  for (const [i, { x, y }] of places.entries()) {
    const alone = places[i - 1]?.y == null && places[i + 1]?.y == null;
    const dot = apart >= ROOM_FOR_DOTS || alone || i === places.length - 1;
    if (y !== null && dot) area.mark(x + 0.5, y, glyphs.measured);
  }
}

/**
 * A run of values in order of time with their limits as broken lines: `height` rows of exactly `width` columns. The newest
 * value is the dot at the right; null is a gap; values that don't fit are left out at the left.
 */
export function trendChart(
  values: readonly (number | null)[],
  { min, max, width, height, ascii }: TrendChart,
): string[] {
  const glyphs = glyphsFor(ascii);
  const measured = values.map((value) => (isKnown(value) ? value : null));
  const limits = [max, min].filter(isKnown);
  const y = axisOf(measured.filter(isKnown), limits, height);
  const sketch = { y, width, height, glyphs };
  const { columns } = createPlotArea({ ...sketch, x: { from: 0, to: 1, ticks: [] } });
  const area = createPlotArea({ ...sketch, x: { from: 0, to: columns, ticks: [] } });
  for (const limit of limits) area.curve(() => limit, glyphs.limit);
  drawValues(area, measured, glyphs);
  return area.text();
}
