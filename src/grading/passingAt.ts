import { type Determination, determined, undetermined } from "../record/determination.ts";
import type { Interpolation } from "../record/product.ts";
import { aboveCoarsest, belowFinest } from "./bounds.ts";
import { type Curve, curveOf, type Rows } from "./curve.ts";
import { READINGS } from "./interpolation/readings.ts";
import { sizeFault } from "./standsAt.ts";

function readBetween(curve: Curve, apertureUm: number, interpolation: Interpolation): Determination {
  const above = curve.apertureUm.findIndex((a) => a > apertureUm);
  const { passingPct, told } = READINGS[interpolation];
  const note = told?.(curve, above - 1) ?? null;
  return determined(passingPct(curve, above - 1, apertureUm), "%", note === null ? [] : [note]);
}

/**
 * Percent passing at any size, read from the curve through the sieves: exactly the sieve's own figure where a
 * sieve stands, interpolated between two of them (CP-4), never extrapolated.
 *
 * @param apertureUm a size in um
 * @returns 0 to 100 %; beyond the coarsest or finest sieve a reason with that bound and the mass beyond it;
 *   the reason why there is no curve over the chosen mean apertures
 * @source ASTM D6913 (memory) for log-linear; conventions CP-4, CP-5
 */
export function passingAt(grading: Rows, apertureUm: number, interpolation: Interpolation): Determination {
  const fault = sizeFault(grading);
  if (fault !== null) return undetermined(fault);
  const curve = curveOf(grading);
  const own = curve.apertureUm.indexOf(apertureUm);
  const ownPct = curve.passingPct[own];
  if (ownPct !== undefined) return determined(ownPct, "%");
  if (!(apertureUm > (curve.apertureUm[0] ?? Number.POSITIVE_INFINITY))) return undetermined(belowFinest(grading));
  if (apertureUm > (curve.apertureUm.at(-1) ?? 0)) return undetermined(aboveCoarsest(grading));
  return readBetween(curve, apertureUm, interpolation);
}
