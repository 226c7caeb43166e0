import { say } from "../words/say.ts";
import { type Glyphs, glyphsFor } from "./glyphs.ts";
import { bounded, drawLimits, type EnvelopeBound, type PassingPoint } from "./passingChart.ts";
import { percentAxis } from "./percentAxis.ts";
import { createPlotArea, type PlotArea } from "./plotArea.ts";
import { isSize, sizeAt, sizeAxis, sizeOf } from "./sizeAxis.ts";

export interface OverlaidCurve {
  /** One character that stands at its points, and beside its test elsewhere. */
  readonly letter: string;
  readonly points: readonly PassingPoint[];
  readonly passingAt: (sizeUm: number) => number | null;
}

export interface OverlayChart {
  readonly curves: readonly OverlaidCurve[];
  /** Place of the curve that stands out as a full line; null for none. */
  readonly chosen: number | null;
  readonly envelope?: readonly EnvelopeBound[];
  readonly width: number;
  readonly height: number;
  readonly ascii?: boolean;
}

const TRACE = { unicode: "·", ascii: "." } as const;

/** A curve in the background: its trace, one cell a column. */
function drawTrace(area: PlotArea, { passingAt }: OverlaidCurve, from: number, to: number, trace: string): void {
  for (let column = 0; column < area.columns; column += 1) {
    const at = from + ((column + 0.5) / area.columns) * (to - from);
    const pct = bounded(passingAt(sizeOf(at)));
    if (pct !== null) area.mark(at, pct, trace);
  }
}

function drawLetters(area: PlotArea, { points, letter }: OverlaidCurve): void {
  for (const { apertureUm, passingPct } of points) {
    const pct = bounded(passingPct);
    if (isSize(apertureUm) && pct !== null) area.mark(sizeAt(apertureUm), pct, letter);
  }
}

/** The chosen curve: a full line with its letter at the points. */
function drawChosen(area: PlotArea, curve: OverlaidCurve, glyphs: Glyphs): void {
  area.curve((at) => bounded(curve.passingAt(sizeOf(at))), glyphs.curve);
  drawLetters(area, curve);
}

/**
 * Passing curves of several tests over one another, inside their envelope: `height` rows of exactly `width` columns, without
 * colour. Each curve has its letter at its points; the chosen one is a full line, the others are dotted. Where letters
 * share a cell the chosen one shows, else the last.
 */
export function overlayChart({ curves, chosen, envelope = [], width, height, ascii }: OverlayChart): string[] {
  const glyphs = glyphsFor(ascii);
  const sieves = [
    ...curves.flatMap(({ points }) => points.map((point) => point.apertureUm)),
    ...envelope.map((bound) => bound.apertureUm),
  ];
  const x = sizeAxis(sieves);
  const y = percentAxis(height - 2);
  const area = createPlotArea({ x: x ?? { from: 0, to: 1, ticks: [] }, y, width, height, glyphs });
  if (x === null) {
    area.note(say`no curve to draw`);
    return area.text();
  }
  drawLimits(area, envelope, "maxPct", glyphs);
  drawLimits(area, envelope, "minPct", glyphs);
  const behind = curves.filter((_, i) => i !== chosen);
  for (const curve of behind) drawTrace(area, curve, x.from, x.to, ascii ? TRACE.ascii : TRACE.unicode);
  for (const curve of behind) drawLetters(area, curve);
  const front = chosen === null ? undefined : curves[chosen];
  if (front) drawChosen(area, front, glyphs);
  return area.text();
}
