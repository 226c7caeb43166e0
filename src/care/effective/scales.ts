import type { Curve } from "../../grading/curve.ts";
import { logLinear } from "../../grading/interpolation/logLinear.ts";
import { monotone } from "../../grading/interpolation/monotone.ts";
import type { Reading } from "../../grading/interpolation/reading.ts";
import { normalQuantile } from "../../grading/normal.ts";

/** A point of a passing curve: the size in um that is known of the sieve, and what passed it. */
export interface CurvePoint {
  readonly apertureUm: number;
  readonly passingPct: number;
}

/** A way of drawing a smooth curve through neighbouring sieves: a scale for the passing share, a rule between points. */
interface Drawing {
  readonly heightOf: (share: number) => number;
  readonly between: Reading;
}

const byNormal = (share: number): number => normalQuantile(share);
const byRosinRammler = (share: number): number => Math.log(-Math.log1p(-share));
const byPower = (share: number): number => Math.log(share);

/**
 * Six drawings of the same points over the logarithm of the size: on the scale on which a log-normal is straight
 * (`z = Phi^-1(P)`), on that of Rosin-Rammler (`ln(-ln(1 - P))`) and on that of Gates-Gaudin-Schuhmann (`ln P`), each
 * as a monotone cubic and as straight steps. No material is any of them; how far they differ tells how little the
 * neighbours say of the place between them.
 *
 * @source the scales as in the models of grading/models; PCHIP as pchipSlopes
 */
export const DRAWINGS: readonly Drawing[] = [
  { heightOf: byNormal, between: monotone },
  { heightOf: byNormal, between: logLinear },
  { heightOf: byRosinRammler, between: monotone },
  { heightOf: byRosinRammler, between: logLinear },
  { heightOf: byPower, between: monotone },
  { heightOf: byPower, between: logLinear },
];

function curveThrough(points: readonly CurvePoint[], heightOf: Drawing["heightOf"]): Curve {
  const apertureUm = points.map((p) => p.apertureUm);
  return {
    apertureUm,
    lnAperture: apertureUm.map(Math.log),
    passingPct: points.map((p) => heightOf(p.passingPct / 100)),
  };
}

/**
 * The size in um at which a curve through some points reaches a passing %.
 *
 * @param points finest first, passing % strictly between 0 and 100 and rising
 * @returns undefined where the points do not enclose that passing %
 */
export function sizeThrough(points: readonly CurvePoint[], passingPct: number, drawing: Drawing): number | undefined {
  const k = points.findIndex((p) => p.passingPct > passingPct);
  if (k < 1 || !(passingPct > (points[k - 1]?.passingPct ?? 100))) return undefined;
  const curve = curveThrough(points, drawing.heightOf);
  return drawing.between.sizeUm(curve, k - 1, drawing.heightOf(passingPct / 100));
}
