import type { Sureness } from "../budget.ts";
import type { Interval } from "../interval.ts";
import type { Drawn } from "./monteCarlo.ts";
import { numericalTolerance } from "./numericalTolerance.ts";

/** First-order propagation against Monte Carlo for one number. */
export interface Comparison {
  readonly name: string;
  /** Numerical tolerance of u, in the unit of the number. */
  readonly tolerance: number;
  /** How far the ends of the two intervals lie apart. */
  readonly lowApart: number;
  readonly highApart: number;
  readonly agree: boolean;
  /** The interval to use: of the first order where the two agree, else of the draws. */
  readonly interval: Interval;
  readonly by: "first order" | "monte carlo";
}

/**
 * Whether the two ways agree: the ends of the interval of first order and of the draws within the numerical tolerance
 * of u. Where they do not, the draws are right.
 *
 * @param digits significant digits of u that matter, 1 if nothing is said
 * @returns null where either has no number
 * @source JCGM 101:2008 clause 8.1 (memory)
 */
export function compareWays(sure: Sureness, drawn: Drawn, digits = 1): Comparison | null {
  if (!sure.determinable || !drawn.determinable) return null;
  const u = Math.max(sure.u, drawn.u);
  const tolerance = u === 0 ? 0 : numericalTolerance(u, digits);
  const lowApart = Math.abs(sure.interval.low - drawn.interval.low);
  const highApart = Math.abs(sure.interval.high - drawn.interval.high);
  const agree = lowApart <= tolerance && highApart <= tolerance;
  const { interval } = agree ? sure : drawn;
  return {
    name: sure.name,
    tolerance,
    lowApart,
    highApart,
    agree,
    interval,
    by: agree ? "first order" : "monte carlo",
  };
}
