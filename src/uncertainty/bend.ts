import { isOverMeans } from "../grading/standsAt.ts";
import type { Interpolation } from "../record/product.ts";
import type { ValueId } from "../record/valueIds.ts";
import type { Graded } from "./graded.ts";
import { type Measurand, measured } from "./measurand.ts";

/** What passing % may do between two sieves as well as what the product's interpolation says. */
const LIKELY: readonly Interpolation[] = ["log-probability", "monotone"];

/** Values that are sums of shares at the sieves of a series. */
const OF_SERIES: readonly ValueId[] = ["finenessModulus", "grainFinenessNumber"];

const isReadAtNominal = (on: Measurand): boolean =>
  on.kind === "value" ? OF_SERIES.includes(on.id) : on.kind !== "percentileUm";

/**
 * How far the curve may bend between the mean apertures where a share or a series is read at nominal ones: the largest difference
 * between the product's interpolation and a straight line on log-probability paper or a monotone curve. It is not corrected
 * for, so it counts whole as a standard uncertainty, like a known deviation of an aperture.
 *
 * @returns in the unit of the number; 0 over nominal apertures, where a sieve stands at its nominal aperture, and for anything else that is
 *   not read there
 * @source common practice, no source; checked by simulated log-normal sands
 */
export function bendU(on: Measurand, graded: Graded): number {
  if (!isReadAtNominal(on) || !isOverMeans(graded.grading)) return 0;
  const by = (interpolation: Interpolation) =>
    measured(on, graded.grading, { ...graded, choices: { ...graded.choices, interpolation } });
  const own = by(graded.choices.interpolation);
  if (!own.determinable) return 0;
  const others = LIKELY.map(by).flatMap((found) => (found.determinable ? [found.value] : []));
  return Math.max(0, ...others.map((other) => Math.abs(other - own.value)));
}
