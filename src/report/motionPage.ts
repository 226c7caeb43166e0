import { significant } from "../grading/rounding.ts";
import type { ShakerFigures } from "../procedure/motion/shakerFigures.ts";
import { SIGNS } from "../terminal/signs.ts";
import { inColumns, wrapped } from "./columns.ts";

const DIGITS = 3;
const figure = (size: number): string => significant(size, DIGITS);
/** A frequency is set, not read off: its idle zeros say nothing. */
export const hzText = (frequencyHz: number): string => `${Number(significant(frequencyHz, 2 * DIGITS))} Hz`;

/** A stroke is never told without saying that it is peak to peak. */
export const strokeText = (strokeMm: number): string => `${figure(strokeMm)} mm peak to peak`;

/** The one-period condition in a sentence. */
export const ONE_PERIOD =
  "One-period stroke: there a grain's flight lasts just one period of the sieve, so that it meets the sieve once in every stroke.";

/** What the figures of a motion rest on. */
export const MOTION_BASIS =
  "Worked out for one grain on a level sieve that does not rebound; what holds for a real load is found by test.";

/** The figures of a shaker, each with its word. */
export function motionRows(figures: ShakerFigures): readonly (readonly [string, string])[] {
  const { frequencyHz, strokeMm, peakAccelerationG, throwNumber, flightTimeMs, flightPerPeriod } = figures;
  const flies = flightPerPeriod > 0;
  return [
    ["frequency", hzText(frequencyHz)],
    ["stroke", strokeText(strokeMm)],
    ["peak acceleration", `${figure(peakAccelerationG)} g`],
    ["throw number", figure(throwNumber)],
    ["flight time", flies ? `${figure(flightTimeMs)} ms` : "none: nothing lifts"],
    ["flight / period", figure(flightPerPeriod)],
  ];
}

export interface MotionLook {
  readonly width: number;
  /** The rows of the plot, drawn, and what its signs mean. */
  readonly chart: readonly string[];
  readonly legend: string;
}

/** A page on the motion of a sieve: figures, the plot of flight over stroke, what it rests on. */
export function motionPage(figures: ShakerFigures, { width, chart, legend }: MotionLook): string {
  const { onePeriodStrokeMm, frequencyHz, restated } = figures;
  const rows = [
    ...motionRows(figures),
    ["one-period stroke", `${strokeText(onePeriodStrokeMm)} at ${hzText(frequencyHz)}`],
    ...(restated === undefined
      ? []
      : [[`at ${hzText(restated.frequencyHz)}`, `${strokeText(restated.strokeMm)} for the same peak acceleration`]]),
  ];
  const told = [
    ONE_PERIOD,
    MOTION_BASIS,
    "Clamp the stack before it moves; noise and dust: your site's rules come first.",
  ];
  return [
    "motion of a sieve that swings straight up and down",
    SIGNS.rule.repeat(width),
    ...inColumns(rows),
    "",
    `flight / period over stroke in mm, peak to peak   ${legend}`,
    ...chart.map((row) => row.trimEnd()),
    "",
    ...told.flatMap((sentence) => wrapped(sentence, width, "  ")),
    "",
  ].join("\n");
}
