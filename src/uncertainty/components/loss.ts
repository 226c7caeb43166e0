import { roundHalfAway } from "../../grading/rounding.ts";
import { chargeAt, type Graded, isWashed, massCount, massesOf, panAt, washedAt } from "../graded.ts";
import { type Cause, type Component, included, notIncluded } from "./component.ts";

const DUST_SHARE = 0.5;

/** Standard uncertainty of the closure in g: what the balance alone may leave between the charge and what is recovered. */
export function closureU(graded: Graded, ofBalance: readonly Cause[]): number {
  const startAt = isWashed(graded) ? washedAt(graded) : chargeAt(graded);
  const squares = ofBalance.map(({ byMassG }) => {
    const heldG = byMassG.subarray(0, panAt(graded) + 1).reduce((sum, g) => sum + g, 0);
    return ((byMassG[startAt] ?? 0) - heldG) ** 2;
  });
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0));
}

/** With the chance of the dust share the pan, else any row with the chance of its share of the mass. */
function chancesOf(graded: Graded, dustShare: number): number[] {
  const masses = massesOf(graded);
  const { recoveredG, rows } = graded.grading;
  const ofRow = (row: number) => ((1 - dustShare) * (masses[row] ?? 0)) / recoveredG;
  return rows.map((_, row) => ofRow(row) + (row === panAt(graded) ? dustShare : 0));
}

/**
 * Where the lost mass L (charge less recovered) could have been. Model: all of it came from one fraction. With the
 * chance `dustShare` that was dust of the finest fraction, the pan; else any fraction, each with the chance of its
 * share of the mass. Nothing is corrected for, so what counts is the square of the change on average, not only its
 * scatter: `E[dm_i^2] = q_i L^2`, with q_i the chance of fraction i. A gain is treated alike.
 *
 * L is itself a difference of weighings: with the gap G that was found and the closure's standard uncertainty u from the
 * balance, `E[L^2] = G^2 + u^2`. A closure that the balance cannot resolve proves that little was lost as badly as it
 * proves that much was.
 *
 * @param ofBalance the causes of the balance's components
 * @source common practice, no source, for where it was; JCGM 100 clause 5.1.2 for the square of a product
 */
export function loss(graded: Graded, ofBalance: readonly Cause[], dustShare = DUST_SHARE): Component {
  const gapG = graded.grading.lossG;
  if (graded.panAssumed) return notIncluded("loss", "the pan was not weighed, so no loss is known");
  if (gapG === null) return notIncluded("loss", "the charge was not weighed, so no loss is known");
  const lostG = (gapG < 0 ? -1 : 1) * Math.hypot(gapG, closureU(graded, ofBalance));
  if (lostG === 0) return included("loss", "nothing lost, by a closure without uncertainty", []);
  const chances = chancesOf(graded, dustShare);
  const causes = chances.map((chance, row): Cause => {
    const byMassG = new Float64Array(massCount(graded));
    byMassG[row] = lostG * Math.sqrt(chance);
    return { shape: "normal", byMassG };
  });
  const chance = roundHalfAway(dustShare, 2);
  const told =
    lostG < 0
      ? `gained from one fraction, or (chance ${chance}) dust from the pan`
      : `lost from one fraction, or (chance ${chance}) dust from the pan`;
  return included("loss", told, causes, { kind: "one of", chances });
}
