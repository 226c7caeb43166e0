import type { GradedFraction } from "../../grading/grading.ts";
import { isOverMeans, standsAtUm } from "../../grading/standsAt.ts";
import { apertureText } from "../../series/apertureText.ts";
import { toleranceByFormula } from "../../series/tolerance.ts";
import type { ApertureConditions } from "../conditions.ts";
import { type Graded, massCount } from "../graded.ts";
import { localCurve } from "../localCurve.ts";
import { type Component, type DrawnAperture, included, notIncluded } from "./component.ts";

/** Root of the squares of the known deviation from where the curve is drawn, and the certificate's own uncertainty. */
function certifiedUm(row: number, of: GradedFraction, { known = [] }: ApertureConditions): DrawnAperture | null {
  const sieve = known.find((k) => k.apertureUm === of.apertureUm);
  if (!sieve) return null;
  const uUm = Math.hypot(sieve.meanUm - standsAtUm(of), sieve.expandedUm / (sieve.coverageFactor ?? 2));
  return { row, uUm, shape: "normal" };
}

function uncertifiedUm(row: number, apertureUm: number, { others }: ApertureConditions): DrawnAperture | null {
  if (others === "exact") return { row, uUm: 0, shape: "rectangular" };
  const tolerance = toleranceByFormula(apertureUm);
  return tolerance ? { row, uUm: tolerance.meanUm / Math.sqrt(3), shape: "rectangular" } : null;
}

function toldOf(certified: number, of: number, { others, by }: ApertureConditions): string {
  const rest = others === "exact" ? "taken as exact" : "within the tolerance Y";
  if (by === "effective" && certified > 0) {
    return certified === of
      ? "all sieves by a reference material"
      : `${certified} of ${of} sieves by a reference material, the others ${rest}`;
  }
  if (certified === of) return "all sieves by certificate";
  return certified === 0
    ? `no certificates: all ${of} sieves ${rest}`
    : `${certified} of ${of} sieves by certificate, the others ${rest}`;
}

/** A wider aperture let pass what belongs on the sieve: per um so much moves from the next finer row back to this one. */
function shifted(graded: Graded, { row, uUm }: DrawnAperture, slopePctPerLn: number): Float64Array {
  const byMassG = new Float64Array(massCount(graded));
  const sieve = graded.grading.rows[row];
  const movedG = (graded.grading.totalG * slopePctPerLn * uUm) / (100 * (sieve ? standsAtUm(sieve) : 1));
  byMassG[row] = movedG;
  byMassG[row + 1] = -movedG;
  return byMassG;
}

/**
 * The mean aperture w of each sieve, through the local slope of the curve: passing % was found at w, not at the
 * nominal a, so `u(P) = |dP / d ln a| u(w) / a`. With a certificate u(w) is its standard uncertainty together with the
 * certified deviation from the nominal, where the curve is drawn over nominal apertures (drawn over certified or effective
 * ones the deviation is corrected for and leaves only the uncertainty of that mean); without one w lies evenly within the tolerance Y of the
 * series, `u = Y / sqrt 3`, unless the product takes such sieves as exact. A sieve outside the series without a certificate
 * is not counted, which is told; the others are. What passes one sieve less stays on the next finer row, so neighbouring
 * rows are negatively correlated; different sieves are independent. Over mean apertures it counts in any case: how the curve
 * may bend where it is read at nominal ones (`bendU`) joins it, number by number.
 *
 * @source ISO 3310-1 for Y (formula recalled, see toleranceByFormula); JCGM 100 4.3.7 for the rectangle (memory)
 */
export function apertures(graded: Graded, conditions: ApertureConditions | undefined): Component {
  if (!conditions) return notIncluded("apertures", "nothing is said about the apertures of the sieves");
  const sieves = graded.grading.rows.flatMap((of, row) => {
    const { apertureUm } = of;
    if (apertureUm === 0) return [];
    const drawn = certifiedUm(row, of, conditions) ?? uncertifiedUm(row, apertureUm, conditions);
    return [{ apertureUm, drawn }];
  });
  const unknown = sieves.filter((sieve) => sieve.drawn === null).map(({ apertureUm }) => apertureText(apertureUm));
  const uncounted = `${unknown.join(", ")}: neither a certificate nor a tolerance in the series`;
  const bends = isOverMeans(graded.grading);
  if (!bends && unknown.length > 0 && unknown.length === sieves.length) return notIncluded("apertures", uncounted);
  const drawn = sieves.flatMap((sieve) => (sieve.drawn ? [sieve.drawn] : []));
  const causes = drawn.map((d) => ({
    shape: d.shape,
    byMassG: shifted(graded, d, localCurve(graded, d.row).slopePctPerLn),
  }));
  const certified = drawn.filter((d) => d.shape === "normal").length;
  if (!bends && certified === 0 && conditions.others === "exact") {
    return notIncluded("apertures", "no sieve has a certificate, and the product takes the others as exact");
  }
  const told = [
    drawn.length > 0 ? toldOf(certified, drawn.length, conditions) : "",
    unknown.length > 0 ? `not counted: ${uncounted}` : "",
    bends ? "how the curve may bend where it is read at nominal apertures" : "",
  ].filter((words) => words !== "");
  return included("apertures", told.join("; "), causes, { kind: "apertures", sieves: drawn });
}
