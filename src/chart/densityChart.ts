import { roundHalfAway } from "../grading/rounding.ts";
import { apertureText } from "../series/apertureText.ts";
import { figure } from "../words/figures.ts";
import { say } from "../words/say.ts";
import { glyphsFor } from "./glyphs.ts";
import type { FractionChart } from "./histogram.ts";
import { createPlotArea } from "./plotArea.ts";
import { sizeAt, sizeAxis } from "./sizeAxis.ts";
import { axisFromZero } from "./valueAxis.ts";

/** What lies between two neighbouring sieves. */
export interface DensityStep {
  readonly fromUm: number;
  readonly toUm: number;
  readonly pctPerDoubling: number;
}

/** Between two neighbouring sieves: retained % over the number of doublings from the finer to the coarser. */
export function densitySteps(fractions: FractionChart["fractions"]): DensityStep[] {
  return fractions.slice(1).flatMap(({ apertureUm, retainedPct }, i) => {
    const upperUm = fractions[i]?.apertureUm ?? 0;
    if (!(apertureUm > 0 && upperUm > apertureUm)) return [];
    return [{ fromUm: apertureUm, toUm: upperUm, pctPerDoubling: retainedPct / Math.log2(upperUm / apertureUm) }];
  });
}

/** The same on the axis of size. */
const stepsOf = (fractions: FractionChart["fractions"]) =>
  densitySteps(fractions).map(({ fromUm, toUm, pctPerDoubling }) => ({
    from: sizeAt(fromUm),
    to: sizeAt(toUm),
    pctPerDoubling,
  }));

const shown = (pct: number): string => figure(roundHalfAway(pct, 1));
const named = (apertureUm: number): string => figure(apertureText(apertureUm));

/** The two open ends have no width on a logarithmic axis, so they are told instead of drawn. */
function openEnds(fractions: FractionChart["fractions"]): string {
  const sieves = fractions.filter((f) => f.apertureUm > 0);
  const [coarsest] = sieves;
  const finest = sieves.at(-1);
  const pan = fractions.find((f) => f.apertureUm === 0);
  const above = coarsest ? [say`${shown(coarsest.retainedPct)} % above ${named(coarsest.apertureUm)}`] : [];
  const below = finest && pan ? [say`${shown(pan.retainedPct)} % below ${named(finest.apertureUm)}`] : [];
  return [...above, ...below].join(", ");
}

/**
 * Density of the distribution as steps over the logarithm of size: % by mass per doubling of size, so that the area of a
 * step is what its fraction holds, however far its sieves are apart. `height` rows of exactly `width` columns; the last
 * one tells what lies beyond the sieves.
 */
export function densityChart({ fractions, width, height, ascii }: FractionChart): string[] {
  const glyphs = glyphsFor(ascii);
  const steps = stepsOf(fractions);
  const rows = Math.max(0, Math.floor(height) - 1);
  const greatest = Math.max(0, ...steps.map((step) => step.pctPerDoubling));
  const x = sizeAxis(fractions.map((f) => f.apertureUm)) ?? { from: 0, to: 1, ticks: [] };
  const area = createPlotArea({ x, y: axisFromZero(greatest, rows - 2), width, height: rows, glyphs });
  area.fill((at) => steps.find((step) => at >= step.from && at < step.to)?.pctPerDoubling ?? null);
  if (steps.length === 0) area.note(say`two sieves make a step`);
  const ends = openEnds(fractions).slice(0, Math.max(0, Math.floor(width)));
  return height >= 1 ? [...area.text(), ends.padEnd(Math.max(0, Math.floor(width)))] : [];
}
