import { type Determination, determined, undetermined } from "../record/determination.ts";
import type { Interpolation } from "../record/product.ts";
import { apertureText } from "../series/apertureText.ts";
import type { Grading } from "./grading.ts";
import { passingAt } from "./passingAt.ts";
import { isOverMeans, sizeFault, standsAtUm } from "./standsAt.ts";

export type Share = "passingPct" | "retainedPct" | "coarserPct";

type Rows = Pick<Grading, "rows">;

/** Beyond the outermost sieve where it proves that all, or nothing, passes there too; null anywhere else. */
function provenPct({ rows }: Rows, sizeUm: number): number | null {
  const [coarsest, finest] = [rows[0], rows.at(-2)];
  if (coarsest?.coarserPct === 0 && sizeUm >= standsAtUm(coarsest)) return 100;
  return finest?.passingPct === 0 && sizeUm <= standsAtUm(finest) ? 0 : null;
}

/**
 * Percent passing at a nominal aperture of a curve that is drawn over chosen mean apertures: read from that curve; 100 or 0
 * beyond a sieve that all or nothing passed. Over nominal apertures the same as `passingAt`.
 *
 * @returns 0 to 100 %; a reason beyond the outermost sieves, and where there is no curve
 */
export function passingAtNominal(grading: Rows, apertureUm: number, interpolation: Interpolation): Determination {
  const proven = isOverMeans(grading) && sizeFault(grading) === null ? provenPct(grading, apertureUm) : null;
  return proven === null ? passingAt(grading, apertureUm, interpolation) : determined(proven, "%");
}

/** The passing % at the nominal aperture of the next coarser sieve; all passes above the coarsest. */
function passingAbove({ rows }: Rows, row: number, interpolation: Interpolation): Determination {
  const coarser = rows[row - 1];
  return coarser ? passingAtNominal({ rows }, coarser.apertureUm, interpolation) : determined(100, "%");
}

function readShare(share: Share, grading: Rows, row: number, interpolation: Interpolation): Determination {
  const apertureUm = grading.rows[row]?.apertureUm ?? 0;
  const passing = passingAtNominal(grading, apertureUm, interpolation);
  if (!passing.determinable) return undetermined(`at ${apertureText(apertureUm)}: ${passing.reason}`);
  const words = [`read at ${apertureText(apertureUm)} from the curve (${interpolation})`];
  if (share === "passingPct") return determined(passing.value, "%", words);
  if (share === "coarserPct") return determined(100 - passing.value, "%", words);
  const above = passingAbove(grading, row, interpolation);
  return above.determinable ? determined(above.value - passing.value, "%", words) : above;
}

/**
 * What passes, is coarser than or stays between the nominal apertures of the stack at one of its sieves, in %: the sieve's
 * own figure where the curve is drawn over nominal apertures; else read from the curve at the nominal apertures, retained
 * as the difference of two readings.
 *
 * @returns null for an aperture that the stack lacks; a reason where the nominal aperture lies beyond the curve
 */
export function shareAtNominal(
  share: Share,
  apertureUm: number,
  grading: Rows,
  interpolation: Interpolation,
): Determination | null {
  const at = grading.rows.findIndex((row) => row.apertureUm === apertureUm);
  const row = grading.rows[at];
  if (!row) return null;
  return isOverMeans(grading) && apertureUm > 0
    ? readShare(share, grading, at, interpolation)
    : determined(row[share], "%");
}
