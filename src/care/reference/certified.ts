import type { Curve } from "../../grading/curve.ts";
import { monotone } from "../../grading/interpolation/monotone.ts";
import type { ReferenceMaterial } from "../../record/care.ts";

/** The certificate's expanded uncertainties are brought to this coverage. */
const COVERAGE = 2;

/** The certified curve of a material and its expanded (k = 2) uncertainty over the same sizes, finest first. */
export interface CertifiedCurve {
  readonly passing: Curve;
  readonly expandedPct: readonly number[];
}

export function certifiedCurve({ points, coverageFactor = COVERAGE }: ReferenceMaterial): CertifiedCurve {
  const rising = points.toReversed();
  const apertureUm = rising.map((p) => p.apertureUm);
  return {
    passing: { apertureUm, lnAperture: apertureUm.map(Math.log), passingPct: rising.map((p) => p.passingPct) },
    expandedPct: rising.map((p) => (p.expandedPct * COVERAGE) / coverageFactor),
  };
}

/** The step of the curve in which a size lies; -1 outside. */
const stepOf = ({ apertureUm }: Curve, um: number): number => {
  const above = apertureUm.findIndex((a) => a >= um);
  return above === 0 ? (apertureUm[0] === um ? 0 : -1) : above - 1;
};

/**
 * What a certified material passes at an aperture in um: read from the monotone curve through its certified points;
 * its uncertainty is the larger of the two points on either side.
 *
 * @returns passing % with its expanded (k = 2) uncertainty; null outside the certified sizes
 * @source PCHIP over ln size, as grading's "monotone"
 */
export function certifiedAt(curve: CertifiedCurve, um: number): { passingPct: number; expandedPct: number } | null {
  const k = stepOf(curve.passing, um);
  if (k < 0) return null;
  const own = curve.passing.apertureUm.indexOf(um);
  if (own >= 0) return { passingPct: curve.passing.passingPct[own] ?? 0, expandedPct: curve.expandedPct[own] ?? 0 };
  const expandedPct = Math.max(curve.expandedPct[k] ?? 0, curve.expandedPct[k + 1] ?? 0);
  return { passingPct: monotone.passingPct(curve.passing, k, um), expandedPct };
}

/**
 * The size in um at which a certified material passes so many %.
 *
 * @returns null outside the certified percentages, and where the curve is flat
 */
export function certifiedSizeUm({ passing }: CertifiedCurve, passingPct: number): number | null {
  const above = passing.passingPct.findIndex((pct) => pct >= passingPct);
  if (above < 0) return null;
  if (passing.passingPct[above] === passingPct) return passing.apertureUm[above] ?? null;
  return above === 0 ? null : monotone.sizeUm(passing, above - 1, passingPct);
}
