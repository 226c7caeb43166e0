import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import type { Program } from "../../record/program.ts";
import { onePeriodStrokeMm } from "./flight.ts";
import { type ShakerFigures, shakerFigures } from "./shakerFigures.ts";

/** Frequencies of the mains, in Hz. */
const MAINS_HZ = [50, 60] as const;

/** A stated acceleration may differ from that of the stroke by this much: dials are read off. */
const SHARE_APART = 0.02;

export interface ProgramMotion {
  /** As the program is written. */
  readonly written: ShakerFigures;
  /** At the other mains frequency and the same peak acceleration; null for a program that runs at neither. */
  readonly elsewhere: ShakerFigures | null;
  /** The stroke (peak to peak) at which a grain flies for one period, for each mains frequency. */
  readonly onePeriod: readonly { readonly frequencyHz: number; readonly strokeMm: number }[];
  /** The peak acceleration that the program states, in g, where its stroke gives another; else null. */
  readonly statedG: number | null;
}

type Settings = Pick<Program, "motion" | "strokeMm" | "peakAccelerationG" | "frequencyHz">;

/**
 * The motion of a sieving program in figures, and the same restated for the other mains frequency at equal peak
 * acceleration. A program that gives both stroke and acceleration is taken by its stroke; where the two disagree by
 * more than 2 % the stated acceleration is told.
 *
 * @returns the figures, or why this program has none: it throws nothing, or a setting is missing
 * @source harmonic motion, as `shakerFigures`; the 2 %: common practice, no source
 */
export function programMotion(program: Settings): Outcome<ProgramMotion> {
  const { motion, frequencyHz, strokeMm, peakAccelerationG } = program;
  if (motion !== "vertical throw") return refused(`${motion}: grains are not thrown, so none fly`);
  if (frequencyHz === undefined) return refused("the program gives no frequency");
  if (strokeMm === undefined && peakAccelerationG === undefined)
    return refused("the program gives neither stroke nor acceleration");
  const setting = strokeMm === undefined ? { accelerationG: peakAccelerationG } : { strokeMm };
  const written = shakerFigures({ frequencyHz, ...setting });
  if (!written.ok) return written;
  return accepted({
    written: written.value,
    elsewhere: elsewhere(written.value),
    onePeriod: MAINS_HZ.map((hz) => ({ frequencyHz: hz, strokeMm: onePeriodStrokeMm(hz) })),
    statedG: disagreeing(written.value.peakAccelerationG, peakAccelerationG),
  });
}

function elsewhere({ frequencyHz, peakAccelerationG }: ShakerFigures): ShakerFigures | null {
  if (!MAINS_HZ.some((hz) => hz === frequencyHz)) return null;
  const other = MAINS_HZ.find((hz) => hz !== frequencyHz) ?? frequencyHz;
  const restated = shakerFigures({ frequencyHz: other, accelerationG: peakAccelerationG });
  return restated.ok ? restated.value : null;
}

const disagreeing = (foundG: number, statedG: number | undefined): number | null =>
  statedG !== undefined && Math.abs(statedG - foundG) > SHARE_APART * foundG ? statedG : null;
