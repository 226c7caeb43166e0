import type { Bounds } from "../measurand.ts";
import type { LimitRange } from "./limitRange.ts";

/**
 * A limit without the ends that nothing can lie beyond: of 95 to 100 % passing only 95 % is a limit, and no guard band
 * belongs to the 100.
 *
 * @example
 * realEnds({ min: 95, max: 100 }, { low: 0, high: 100 }) // => ({ min: 95, max: null })
 */
export const realEnds = ({ min, max }: LimitRange, { low, high }: Bounds): LimitRange => ({
  min: min !== null && low !== null && min <= low ? null : min,
  max: max !== null && high !== null && max >= high ? null : max,
});
