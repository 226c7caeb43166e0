import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import { peakAccelerationG, restatedStrokeMm, strokeMmAt } from "./acceleration.ts";
import { flightPeriods, onePeriodStrokeMm } from "./flight.ts";

/** What is known of a shaker that throws upwards: its frequency and either its stroke or its peak acceleration. */
export interface ShakerSetting {
  readonly frequencyHz: number;
  /** Peak to peak. */
  readonly strokeMm?: number | undefined;
  /** Peak, in g. */
  readonly accelerationG?: number | undefined;
  /** Another mains frequency to state the same acceleration for. */
  readonly restateHz?: number | undefined;
}

export interface ShakerFigures {
  readonly frequencyHz: number;
  readonly strokeMm: number;
  readonly peakAccelerationG: number;
  readonly throwNumber: number;
  /** First flight of a grain that does not rebound; 0 where it never leaves. */
  readonly flightTimeMs: number;
  readonly flightPerPeriod: number;
  /** The stroke at which that flight lasts one period. */
  readonly onePeriodStrokeMm: number;
  readonly restated?: { readonly frequencyHz: number; readonly strokeMm: number };
}

/**
 * The motion of a sieve in figures: stroke and acceleration from each other, the throw of a grain, and the stroke
 * at another frequency for equal acceleration. Stroke is peak to peak in mm, acceleration the peak in g.
 *
 * @returns the figures, or which of the given numbers is missing or senseless
 * @source harmonic motion; see `flightPeriods`
 */
export function shakerFigures(setting: ShakerSetting): Outcome<ShakerFigures> {
  const fault = faultIn(setting);
  if (fault !== null) return refused(fault);
  const { frequencyHz, restateHz } = setting;
  const strokeMm = setting.strokeMm ?? strokeMmAt(setting.accelerationG ?? 0, frequencyHz);
  const throwNumber = setting.accelerationG ?? peakAccelerationG(strokeMm, frequencyHz);
  const flightPerPeriod = flightPeriods(throwNumber);
  return accepted({
    frequencyHz,
    strokeMm,
    peakAccelerationG: throwNumber,
    throwNumber,
    flightTimeMs: (1000 * flightPerPeriod) / frequencyHz,
    flightPerPeriod,
    onePeriodStrokeMm: onePeriodStrokeMm(frequencyHz),
    ...(restateHz === undefined
      ? {}
      : { restated: { frequencyHz: restateHz, strokeMm: restatedStrokeMm(strokeMm, frequencyHz, restateHz) } }),
  });
}

function faultIn({ frequencyHz, strokeMm, accelerationG, restateHz }: ShakerSetting): string | null {
  if ((strokeMm === undefined) === (accelerationG === undefined)) return "give either the stroke or the acceleration";
  const given = {
    frequency: frequencyHz,
    stroke: strokeMm,
    acceleration: accelerationG,
    "frequency to restate": restateHz,
  };
  const senseless = Object.entries(given).find(([, number]) => number !== undefined && !(number > 0 && number < 1e6));
  return senseless ? `the ${senseless[0]} must be above 0, not ${senseless[1]}` : null;
}

/** Flight over period for strokes from `fromMm` to `toMm` in even steps, for a small plot. */
export function flightByStroke(
  frequencyHz: number,
  fromMm: number,
  toMm: number,
  points: number,
): { readonly strokeMm: number; readonly flightPerPeriod: number }[] {
  const stepMm = points > 1 ? (toMm - fromMm) / (points - 1) : 0;
  return Array.from({ length: points }, (_, i) => {
    const strokeMm = fromMm + i * stepMm;
    return { strokeMm, flightPerPeriod: flightPeriods(peakAccelerationG(strokeMm, frequencyHz)) };
  });
}
