import { normalCdf, normalQuantile } from "../normal.ts";
import { alongLogSize, type Estimate, isInside, type NamedParameters, type SizeModel } from "./model.ts";

const PCT_PER_ROOT_2PI = 100 / Math.sqrt(2 * Math.PI);

/** s_g = exp(1/slope), and to first order its error: d s_g = s_g (1/slope) (d slope/slope). */
function named(found: Estimate): NamedParameters {
  const geometricStandardDeviation = Math.exp(1 / found.slope);
  const errorOfLn = found.slopeError / found.slope ** 2;
  return {
    model: "logNormal",
    medianUm: found.sizeUm,
    geometricStandardDeviation,
    standardErrors: {
      medianUm: found.sizeErrorUm,
      geometricStandardDeviation: geometricStandardDeviation * errorOfLn,
    },
  };
}

/**
 * Log-normal by mass: `P(x) = 100 Phi(ln(x/median) / ln s_g)`, sizes in um, P in % passing, Phi the normal
 * distribution, s_g the geometric standard deviation (a ratio above 1; d84.13/d50). Straight on `v = Phi^-1(P/100)`
 * over `u = ln x`, with slope 1/ln s_g. 0 and 100 % have no place on that grid.
 * @source ISO 9276-5 (memory)
 * @example
 * logNormal.passingPctAt(0) // => 50
 */
export const logNormal: SizeModel = {
  id: "logNormal",
  label: "log-normal",
  parameters: [
    { key: "medianUm", label: "median size", unit: "um" },
    { key: "geometricStandardDeviation", label: "geometric standard deviation", unit: "1" },
  ],
  formula: "passing % = 100 Phi(ln(size / median) / ln(geometric standard deviation)), Phi the normal distribution",
  source: "ISO 9276-5",
  ...alongLogSize,
  gridY: (passingPct) => (isInside(passingPct) ? normalQuantile(passingPct / 100) : null),
  passingPctAt: (v) => 100 * normalCdf(v),
  risePctAt: (v) => PCT_PER_ROOT_2PI * Math.exp((-v * v) / 2),
  topV: null,
  ticksPct: [1, 5, 10, 16, 25, 50, 75, 84, 90, 95, 99],
  named,
};
