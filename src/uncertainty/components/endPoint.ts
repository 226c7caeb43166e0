import type { EndPointConditions } from "../conditions.ts";
import { type Graded, massCount } from "../graded.ts";
import { type Component, included, notIncluded } from "./component.ts";

function remainderG(graded: Graded, row: number, how: EndPointConditions): number {
  const { apertureUm = 0, netG = 0 } = graded.grading.rows[row] ?? {};
  if (apertureUm === 0) return 0;
  if ("remainderPct" in how) return Math.min(netG, (how.remainderPct * graded.grading.totalG) / 100);
  return Math.min(netG, how.movedG.find((moved) => moved.apertureUm === apertureUm)?.massG ?? 0);
}

/**
 * What would still pass if sieving went on. Each sieve holds back between nothing and as much again as its last minute
 * moved (or as the end point allows a minute to move), evenly: not corrected for, so `u = r / sqrt 3`. Sieved too
 * short is sieved too short on all sieves: one common cause.
 *
 * @source common practice, no source
 */
export function endPoint(graded: Graded, how: EndPointConditions | undefined): Component {
  if (!how) return notIncluded("endPoint", "nothing is said about how far sieving had come");
  const byMassG = new Float64Array(massCount(graded));
  for (const row of graded.grading.rows.keys()) {
    const uG = remainderG(graded, row, how) / Math.sqrt(3);
    byMassG[row] = (byMassG[row] ?? 0) - uG;
    byMassG[row + 1] = (byMassG[row + 1] ?? 0) + (graded.grading.rows[row]?.apertureUm === 0 ? 0 : uG);
  }
  const told =
    "remainderPct" in how
      ? `each sieve may hold back up to ${how.remainderPct} % of the charge`
      : "each sieve may hold back up to what its check minute moved";
  return included("endPoint", told, [{ shape: "one-sided", byMassG }]);
}
