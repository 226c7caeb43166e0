import { stepAt } from "../curve.ts";
import { onTheWay, type Reading, shareOfWay } from "./reading.ts";

/**
 * Passing % linear in the aperture:
 *
 *     P(x) = P_j + (x - a_j)/(a_k - a_j) (P_k - P_j)
 */
export const linear: Reading = {
  passingPct(curve, k, apertureUm) {
    const step = stepAt(curve, k);
    return onTheWay(shareOfWay(apertureUm, step.fromUm, step.toUm), step.fromPct, step.toPct);
  },
  sizeUm(curve, k, passingPct) {
    const step = stepAt(curve, k);
    return onTheWay(shareOfWay(passingPct, step.fromPct, step.toPct), step.fromUm, step.toUm);
  },
};
