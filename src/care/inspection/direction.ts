import { deviationOf, meanOf } from "../robust.ts";
import { studentQuantile } from "../studentT.ts";
import type { ApertureLimits } from "./limits.ts";

/** Above the nominal aperture plus Z lie at most this share of the apertures, where the edition says so. */
export const MOST_ABOVE_Z = 0.06;
const CONFIDENCE = 0.95;

/** What was measured along one direction of the cloth; lengths in um. */
export interface DirectionFound {
  readonly direction: "warp" | "weft";
  readonly measured: number;
  readonly meanUm: number;
  /** Standard deviation of the apertures; null for a single one. No limit for it was seen. */
  readonly deviationUm: number | null;
  readonly largestUm: number;
  /** Half the width of the 95 % range of the mean, by Student's t; null for a single aperture. */
  readonly meanRangeUm: number | null;
  readonly shareAboveZ: number | null;
  readonly meanWithinY: boolean | null;
  readonly largestWithinX: boolean | null;
  /** The mean lies so near to a limit of Y that more apertures could change what is said. */
  readonly nearY: boolean;
}

/** Half the width of the range of a mean of measured apertures: `t s / sqrt n`, in um. */
function rangeOf(deviationUm: number, measured: number): number {
  return (studentQuantile((1 + CONFIDENCE) / 2, measured - 1) * deviationUm) / Math.sqrt(measured);
}

/**
 * Judges the apertures measured along one direction: the mean against Y, the largest against X, and which share lies
 * above Z. Limits are inclusive. Nothing is judged without limits.
 *
 * @source ISO 3310-1 (X seen; Y and Z as their figures tell), European Pharmacopoeia 8.0, 2.1.4 (share above Z, seen)
 */
export function judgeDirection(
  direction: DirectionFound["direction"],
  aperturesUm: readonly number[],
  nominalUm: number,
  limits: ApertureLimits | null,
): DirectionFound {
  const meanUm = meanOf(aperturesUm);
  const largestUm = Math.max(...aperturesUm);
  const deviationUm = aperturesUm.length < 2 ? null : deviationOf(aperturesUm);
  const meanRangeUm = deviationUm === null ? null : rangeOf(deviationUm, aperturesUm.length);
  const found = { direction, measured: aperturesUm.length, meanUm, deviationUm, largestUm, meanRangeUm };
  if (limits === null) return { ...found, shareAboveZ: null, meanWithinY: null, largestWithinX: null, nearY: false };
  const aboveZ = aperturesUm.filter((um) => um > nominalUm + limits.intermediateUm).length;
  const offUm = Math.abs(meanUm - nominalUm);
  return {
    ...found,
    shareAboveZ: aboveZ / aperturesUm.length,
    meanWithinY: offUm <= limits.meanUm,
    largestWithinX: largestUm <= nominalUm + limits.maxUm,
    nearY: Math.abs(offUm - limits.meanUm) < (meanRangeUm ?? Number.POSITIVE_INFINITY),
  };
}
