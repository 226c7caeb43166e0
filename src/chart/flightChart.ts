import { flightByStroke, type ShakerFigures } from "../procedure/motion/shakerFigures.ts";
import { say } from "../words/say.ts";
import { glyphsFor } from "./glyphs.ts";
import { createPlotArea } from "./plotArea.ts";
import { polyline } from "./polyline.ts";
import { axisFromZero, valueTicks } from "./valueAxis.ts";

export interface FlightChart {
  readonly figures: Pick<ShakerFigures, "frequencyHz" | "strokeMm" | "flightPerPeriod" | "onePeriodStrokeMm">;
  readonly width: number;
  readonly height: number;
  readonly ascii?: boolean;
}

/** How far the strokes reach beyond the setting and the one-period stroke. */
const BEYOND = 1.25;
const COLUMNS_PER_TICK = 3;
const UNIT = "mm";

/**
 * Flight over period of a thrown grain by stroke (peak to peak), with the setting as a dot and the stroke of one period
 * marked down to the axis: `height` rows of exactly `width` columns.
 */
export function flightChart({ figures, width, height, ascii = false }: FlightChart): string[] {
  const { frequencyHz, strokeMm, flightPerPeriod, onePeriodStrokeMm } = figures;
  const glyphs = glyphsFor(ascii);
  const toMm = BEYOND * Math.max(strokeMm, onePeriodStrokeMm);
  const drawn = flightByStroke(frequencyHz, 0, toMm, 2 * Math.max(1, Math.floor(width)));
  const greatest = Math.max(...drawn.map((point) => point.flightPerPeriod));
  const ticks = valueTicks(0, toMm, width / COLUMNS_PER_TICK).toSorted((a, b) => a.at - b.at);
  const x = { from: 0, to: toMm, ticks: ticks.map((tick) => ({ ...tick, unit: UNIT })) };
  const area = createPlotArea({ x, y: axisFromZero(greatest, height - 2), width, height, glyphs });
  area.curve(polyline(drawn.map((point) => ({ x: point.strokeMm, y: point.flightPerPeriod }))), glyphs.curve);
  area.dropLine(onePeriodStrokeMm, 1);
  area.mark(onePeriodStrokeMm, 1, glyphs.mark);
  area.mark(strokeMm, flightPerPeriod, glyphs.measured);
  return area.text();
}

/** What the signs of a flight chart stand for. */
export const flightLegend = (ascii = false): string =>
  `${say`this setting`} ${glyphsFor(ascii).measured}   ${say`one period`} ${glyphsFor(ascii).mark}`;
