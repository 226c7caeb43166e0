import type { CentreAndSigma } from "../limits/chartLimits.ts";

/** How cumulative sums are taken, in sigma of a plotted value. */
export interface CusumChoice {
  /** Slack k: half the shift to be found soon. */
  readonly slackSigmas: number;
  /** Decision interval h. */
  readonly limitSigmas: number;
}

/** k 0.5 and h 5: common practice for a shift of one sigma. */
export const USUAL_CUSUM: CusumChoice = { slackSigmas: 0.5, limitSigmas: 5 };

export interface CusumPoint {
  /** Sum of what lies above the centre beyond the slack, and of what lies below it; both 0 or more. */
  readonly above: number;
  readonly below: number;
  readonly limit: number;
  /** The side whose sum is strictly beyond the limit; of both, the larger. */
  readonly side: "above" | "below" | null;
  /** Place of the value with which the sum on that side, or the larger one, began; null where both are 0. */
  readonly since: number | null;
}

interface Sum {
  readonly size: number;
  readonly since: number | null;
}

const NOTHING: Sum = { size: 0, since: null };

function grown(before: Sum, excess: number, i: number): Sum {
  const size = before.size + excess;
  return size > 0 ? { size, since: before.since ?? i } : NOTHING;
}

/**
 * Tabular cumulative sums, in the unit of the values.
 *
 *     C+(i) = max(0, C+(i-1) + x(i) - centre - K)     C-(i) = max(0, C-(i-1) + centre - K - x(i))
 *     K = k sigma,   H = h sigma,   signal above H;   both start at 0
 *
 * @param values one stretch with one centre and sigma
 * @source E. S. Page, Biometrika 41 (1954) 100-115; NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.3, where k
 *   and h are printed in the unit of the values
 */
export function cusumOf(
  values: readonly number[],
  { centre, sigma }: CentreAndSigma,
  { slackSigmas, limitSigmas }: CusumChoice = USUAL_CUSUM,
): CusumPoint[] {
  const [slack, limit] = [slackSigmas * sigma, limitSigmas * sigma];
  let [above, below] = [NOTHING, NOTHING];
  return values.map((value, i) => {
    above = grown(above, value - centre - slack, i);
    below = grown(below, centre - slack - value, i);
    const larger = above.size >= below.size ? "above" : "below";
    const { size, since } = larger === "above" ? above : below;
    return { above: above.size, below: below.size, limit, side: size > limit ? larger : null, since };
  });
}
