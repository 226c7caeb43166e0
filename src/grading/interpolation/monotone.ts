import { type Curve, stepAt } from "../curve.ts";
import { remembered } from "../remembered.ts";
import { shareOfLogWay, sizeOnLogWay } from "./logLinear.ts";
import { pchipSlopes } from "./pchip.ts";
import type { Reading } from "./reading.ts";
import { risingRoot } from "./risingRoot.ts";

const slopesOf = remembered((curve: Curve) => pchipSlopes(curve.lnAperture, curve.passingPct));

/** Coefficients of the cubic over one step, P(t) = a + t (b + t (c + t d)) for t from 0 to 1 in ln aperture. */
interface Cubic {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
}

function cubicAt(curve: Curve, k: number): Cubic {
  const { fromPct, toPct } = stepAt(curve, k);
  const width = (curve.lnAperture[k + 1] ?? 0) - (curve.lnAperture[k] ?? 0);
  const [from = 0, to = 0] = [slopesOf(curve)[k], slopesOf(curve)[k + 1]];
  const rise = toPct - fromPct;
  return { a: fromPct, b: width * from, c: 3 * rise - width * (2 * from + to), d: width * (from + to) - 2 * rise };
}

const heightAt = ({ a, b, c, d }: Cubic, t: number): number => a + t * (b + t * (c + t * d));
const slopeAt = ({ b, c, d }: Cubic, t: number): number => b + t * (2 * c + t * 3 * d);

/**
 * Monotone piecewise cubic (PCHIP) of passing % over the logarithm of the aperture. A percentile is the size at which
 * this same curve reaches the wanted %, found by root finding; sizes are never interpolated over passing %.
 *
 * @source as pchipSlopes
 */
export const monotone: Reading = {
  passingPct(curve, k, apertureUm) {
    const { fromUm, toUm, fromPct, toPct } = stepAt(curve, k);
    const height = heightAt(cubicAt(curve, k), shareOfLogWay(apertureUm, fromUm, toUm));
    return Math.min(toPct, Math.max(fromPct, height));
  },
  sizeUm(curve, k, passingPct) {
    const { fromUm, toUm, toPct } = stepAt(curve, k);
    if (passingPct === toPct) return toUm;
    const cubic = cubicAt(curve, k);
    const t = risingRoot(
      (at) => heightAt(cubic, at) - passingPct,
      (at) => slopeAt(cubic, at),
    );
    return sizeOnLogWay(t, fromUm, toUm);
  },
};
