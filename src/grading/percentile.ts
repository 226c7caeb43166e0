import { type Determination, determined, undetermined } from "../record/determination.ts";
import type { Interpolation } from "../record/product.ts";
import { apertureText } from "../series/apertureText.ts";
import { aboveCoarsest, belowFinest } from "./bounds.ts";
import { type Curve, curveOf, type Rows } from "./curve.ts";
import { READINGS } from "./interpolation/readings.ts";
import { sizeFault } from "./standsAt.ts";
import { pctWords } from "./words.ts";

/** The passing percentages at which a size is always told. */
export const PERCENTILES = ["5", "10", "16", "25", "30", "50", "60", "75", "80", "84", "90", "95"] as const;
export type Percentile = (typeof PERCENTILES)[number];

/** A note if the curve stays at this passing % over more than one step from point `k` on. */
function plateauNote({ apertureUm, passingPct }: Curve, k: number, wantedPct: number): string | null {
  const last = passingPct.lastIndexOf(wantedPct);
  if (last - k < 2) return null;
  const span = `from ${apertureText(apertureUm[k] ?? 0)} to ${apertureText(apertureUm[last] ?? 0)}`;
  return `passing stays at ${pctWords(wantedPct)} ${span}: the smallest size is given`;
}

/** The size at which the step up to point `k` reaches the wanted %. */
function reachedAt(curve: Curve, k: number, wantedPct: number, interpolation: Interpolation): Determination {
  const { sizeUm, told } = READINGS[interpolation];
  if (curve.passingPct[k] === wantedPct) {
    const note = plateauNote(curve, k, wantedPct);
    return determined(curve.apertureUm[k] ?? 0, "um", note === null ? [] : [note]);
  }
  const note = told?.(curve, k - 1) ?? null;
  return determined(sizeUm(curve, k - 1, wantedPct), "um", note === null ? [] : [note]);
}

/**
 * Percentile by mass: d_q, the smallest size in um whose passing % reaches q (CP-6), read from the same curve as
 * `passingAt`, which it undoes. d10 is the size that 10 % passes.
 *
 * @param wantedPct q, above 0 and up to 100 % passing
 * @returns the size in um; the note of a plateau wider than one sieve step; or, beyond the sieves, a reason with the
 *   bound and the mass beyond it, e.g. "below 63 um (pan holds 14 %)" (CP-5)
 * @source B. M. Das, Principles of Geotechnical Engineering; ASTM D6913 (memory); conventions CP-4 to CP-6
 */
export function percentileUm(grading: Rows, wantedPct: number, interpolation: Interpolation): Determination {
  if (!(wantedPct > 0 && wantedPct <= 100)) return undetermined("a percentile lies above 0 and up to 100 % passing");
  const fault = sizeFault(grading);
  if (fault !== null) return undetermined(fault);
  const curve = curveOf(grading);
  const k = curve.passingPct.findIndex((pct) => pct >= wantedPct);
  if (k === -1) return undetermined(aboveCoarsest(grading));
  if (k === 0 && curve.passingPct[0] !== wantedPct) return undetermined(belowFinest(grading));
  return reachedAt(curve, k, wantedPct, interpolation);
}

/** The sizes in um at the usual passing percentages, each as `percentileUm` gives it. */
export const percentiles = (grading: Rows, interpolation: Interpolation): Record<Percentile, Determination> =>
  Object.fromEntries(PERCENTILES.map((pct) => [pct, percentileUm(grading, Number(pct), interpolation)])) as Record<
    Percentile,
    Determination
  >;
