import { apertureText } from "../../series/apertureText.ts";
import { type Curve, stepAt } from "../curve.ts";
import { normalCdf, normalQuantile } from "../normal.ts";
import { logLinear, shareOfLogWay, sizeOnLogWay } from "./logLinear.ts";
import { onTheWay, type Reading, shareOfWay } from "./reading.ts";

/** 0 and 100 % lie infinitely far out on a probability scale. */
const endless = (curve: Curve, k: number): boolean => {
  const { fromPct, toPct } = stepAt(curve, k);
  return !(fromPct > 0 && toPct < 100);
};

/**
 * The normal quantile of the passing share linear in the logarithm of the aperture, which is exact for a log-normal:
 *
 *     z(x) = z_j + ln(x/a_j)/ln(a_k/a_j) (z_k - z_j),   z = Phi^-1(P/100),   P(x) = 100 Phi(z(x))
 *
 * A step that begins at 0 % or ends at 100 % has no finite z at that end; it is read log-linearly, and that is told.
 */
export const logProbability: Reading = {
  passingPct(curve, k, apertureUm) {
    if (endless(curve, k)) return logLinear.passingPct(curve, k, apertureUm);
    const { fromUm, toUm, fromPct, toPct } = stepAt(curve, k);
    const share = shareOfLogWay(apertureUm, fromUm, toUm);
    const z = onTheWay(share, normalQuantile(fromPct / 100), normalQuantile(toPct / 100));
    return Math.min(toPct, Math.max(fromPct, 100 * normalCdf(z)));
  },
  sizeUm(curve, k, passingPct) {
    if (endless(curve, k)) return logLinear.sizeUm(curve, k, passingPct);
    const { fromUm, toUm, fromPct, toPct } = stepAt(curve, k);
    const z = normalQuantile(passingPct / 100);
    return sizeOnLogWay(shareOfWay(z, normalQuantile(fromPct / 100), normalQuantile(toPct / 100)), fromUm, toUm);
  },
  told(curve, k) {
    if (!endless(curve, k)) return null;
    const { fromUm, toUm, fromPct } = stepAt(curve, k);
    const between = `between ${apertureText(fromUm)} and ${apertureText(toUm)}`;
    return `read log-linearly ${between}: ${fromPct > 0 ? 100 : 0} % has no place on a probability scale`;
  },
};
