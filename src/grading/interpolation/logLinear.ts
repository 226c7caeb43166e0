import { stepAt } from "../curve.ts";
import { onTheWay, type Reading, shareOfWay } from "./reading.ts";

/** The size at a share of the way between two sieves on a logarithmic scale. */
export const sizeOnLogWay = (share: number, fromUm: number, toUm: number): number =>
  share === 1 ? toUm : Math.min(toUm, fromUm * Math.exp(share * Math.log(toUm / fromUm)));

/** How far a size lies on the way between two sieves on a logarithmic scale, 0 to 1. */
export const shareOfLogWay = (sizeUm: number, fromUm: number, toUm: number): number =>
  shareOfWay(Math.log(sizeUm / fromUm), 0, Math.log(toUm / fromUm));

/**
 * Passing % linear in the logarithm of the aperture:
 *
 *     log D_q = log a_j + (q - P_j)/(P_k - P_j) (log a_k - log a_j)
 *
 * The base of the logarithm does not matter; linear in phi is the same.
 */
export const logLinear: Reading = {
  passingPct(curve, k, apertureUm) {
    const step = stepAt(curve, k);
    return onTheWay(shareOfLogWay(apertureUm, step.fromUm, step.toUm), step.fromPct, step.toPct);
  },
  sizeUm(curve, k, passingPct) {
    const step = stepAt(curve, k);
    return sizeOnLogWay(shareOfWay(passingPct, step.fromPct, step.toPct), step.fromUm, step.toUm);
  },
};
