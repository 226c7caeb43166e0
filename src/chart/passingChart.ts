import { say } from "../words/say.ts";
import { type Glyphs, glyphsFor } from "./glyphs.ts";
import { isKnown } from "./known.ts";
import { percentAxis } from "./percentAxis.ts";
import { createPlotArea, type PlotArea } from "./plotArea.ts";
import { polyline } from "./polyline.ts";
import { isSize, sizeAt, sizeAxis, sizeOf } from "./sizeAxis.ts";

export interface PassingPoint {
  readonly apertureUm: number;
  readonly passingPct: number;
}

export interface EnvelopeBound {
  readonly apertureUm: number;
  readonly minPct: number | null;
  readonly maxPct: number | null;
}

/** Between which passing % the curve lies at a sieve, as far as one can be sure. */
export interface BandPoint {
  readonly apertureUm: number;
  readonly lowPct: number;
  readonly highPct: number;
}

export interface PassingChart {
  /** What was measured, coarsest first; while a test is weighed only its upper part is known. */
  readonly points: readonly PassingPoint[];
  readonly envelope?: readonly EnvelopeBound[];
  readonly band?: readonly BandPoint[];
  /** Passing % at a size, as the product interpolates it; null where it isn't known. */
  readonly passingAt: (sizeUm: number) => number | null;
  /** Sieves that the axis shows besides those of points and envelope, so that a live curve's axis stays as it is. */
  readonly aperturesUm?: readonly number[];
  /** One place to point out, such as d50. */
  readonly mark?: { readonly sizeUm: number; readonly passingPct: number };
  readonly width: number;
  readonly height: number;
  readonly ascii?: boolean;
}

export const bounded = (pct: number | null): number | null => (isKnown(pct) ? Math.min(100, Math.max(0, pct)) : null);

/** One side of the envelope: a line between its limits, and a head at each of them. */
export function drawLimits(
  area: PlotArea,
  envelope: readonly EnvelopeBound[],
  side: "minPct" | "maxPct",
  glyphs: Glyphs,
): void {
  const limits = envelope
    .filter((bound) => isSize(bound.apertureUm))
    .map((bound) => ({ x: sizeAt(bound.apertureUm), y: bounded(bound[side]) }));
  area.curve(polyline(limits), glyphs.limit);
  for (const { x, y } of limits) {
    if (y !== null) area.mark(x, y, side === "minPct" ? glyphs.lowerLimit : glyphs.upperLimit);
  }
}

/** Both sides of the band, straight between the sieves over the logarithm of size. */
function drawBand(area: PlotArea, band: readonly BandPoint[], glyphs: Glyphs): void {
  for (const end of ["lowPct", "highPct"] as const) {
    area.curve(polyline(band.map((point) => ({ x: sizeAt(point.apertureUm), y: bounded(point[end]) }))), glyphs.band);
  }
}

/**
 * The passing curve over the logarithm of size, inside its envelope: `height` rows of exactly `width` columns, without
 * colour. The curve is a full line, the envelope's sides are broken lines with heads at their limits that point to the
 * side allowed, the band of what the curve may be lies dotted behind it, measured points are dots. A gap in `passingAt` is a gap in the curve; nothing is drawn beyond it.
 */
export function passingChart(chart: PassingChart): string[] {
  const { points, envelope = [], band = [], passingAt, aperturesUm = [], mark, width, height } = chart;
  const glyphs = glyphsFor(chart.ascii);
  const sieves = [...points.map((p) => p.apertureUm), ...envelope.map((e) => e.apertureUm), ...aperturesUm];
  const x = sizeAxis(sieves, mark ? [mark.sizeUm] : []);
  const y = percentAxis(height - 2);
  const area = createPlotArea({ x: x ?? { from: 0, to: 1, ticks: [] }, y, width, height, glyphs });
  if (!x) {
    area.note(say`no sieve yet`);
    return area.text();
  }
  drawBand(area, band, glyphs);
  drawLimits(area, envelope, "maxPct", glyphs);
  drawLimits(area, envelope, "minPct", glyphs);
  area.curve((at) => bounded(passingAt(sizeOf(at))), glyphs.curve);
  for (const { apertureUm, passingPct } of points) {
    const pct = bounded(passingPct);
    if (isSize(apertureUm) && pct !== null) area.mark(sizeAt(apertureUm), pct, glyphs.measured);
  }
  if (mark && isSize(mark.sizeUm)) {
    area.mark(sizeAt(mark.sizeUm), mark.passingPct, glyphs.mark);
    area.dropLine(sizeAt(mark.sizeUm), mark.passingPct);
  }
  return area.text();
}

export interface Legend {
  readonly envelope?: boolean;
  readonly band?: boolean;
  /** What the mark stands for, such as "d50". */
  readonly mark?: string;
  readonly ascii?: boolean;
}

/** What the glyphs of a passing chart stand for, in one line. */
export function chartLegend({ envelope = false, band = false, mark, ascii }: Legend = {}): string {
  const { curve, limit, measured, lowerLimit, upperLimit, mark: markGlyph, band: sure } = glyphsFor(ascii);
  const limits = [
    `${say`at most`} ${limit[4]}${upperLimit}${limit[4]}`,
    `${say`at least`} ${limit[4]}${lowerLimit}${limit[4]}`,
  ];
  return [
    `${say`curve`} ${curve[4]}${curve[4]}`,
    `${say`measured`} ${measured}`,
    ...(band ? [`${ascii ? "+-" : "±"} ${sure[4]}${sure[4]}`] : []),
    ...(envelope ? limits : []),
    ...(mark === undefined ? [] : [`${mark} ${markGlyph}`]),
  ].join("   ");
}
