import { normalCdf } from "../../grading/normal.ts";
import { studentQuantile } from "../studentT.ts";

const POINTS = 240;
/** The scatter that a sample shows lies this many of its own deviations about the true one, at the widest. */
const WIDEST = 9;

/** What a sample's standard deviation may turn out to be, as parts of the true one, with how likely each is. */
function scatters(degrees: number): { readonly s: number; readonly weight: number }[] {
  const half = WIDEST / Math.sqrt(2 * degrees);
  const [low, high] = [Math.max(1e-6, 1 - half), 1 + half];
  const rows = Array.from({ length: POINTS + 1 }, (_, i) => {
    // Closer together at the lower end, where few pairs have their steepest part.
    const u = i / POINTS;
    const s = low + (high - low) * u * u;
    const simpson = (i === 0 || i === POINTS ? 1 : i % 2 === 1 ? 4 : 2) * u;
    return { s, weight: simpson * Math.exp((degrees - 1) * Math.log(s) - (degrees * (s * s - 1)) / 2) };
  });
  const total = rows.reduce((sum, row) => sum + row.weight, 0);
  return rows.map(({ s, weight }) => ({ s, weight: weight / total }));
}

/** The power of a test of so many pairs as a function of the true difference; see `powerOf`. */
export function powerWith(pairs: number, alpha: number): (difference: number) => number {
  const limit = studentQuantile(1 - alpha / 2, pairs - 1);
  const rows = scatters(pairs - 1);
  return (difference) => {
    const shift = difference * Math.sqrt(pairs);
    return rows.reduce(
      (sum, { s, weight }) => sum + weight * (normalCdf(shift - limit * s) + normalCdf(-shift - limit * s)),
      0,
    );
  };
}

/**
 * Power of the two-sided paired t test: the chance that so many pairs show a true mean difference,
 *
 *     mean over s of [ Phi(d sqrt n - t s) + Phi(-d sqrt n - t s) ],   s as a sample's deviation scatters
 *
 * which is the noncentral t distribution, integrated by Simpson's rule to about 1e-6.
 *
 * @param difference in standard deviations of the paired differences
 * @param pairs at least 2
 * @source definition of the noncentral t distribution; checked against scipy's
 * @example Math.round(1000 * powerOf(1, 13, 0.05)) / 1000 // => 0.911
 */
export const powerOf = (difference: number, pairs: number, alpha: number): number =>
  powerWith(pairs, alpha)(difference);
