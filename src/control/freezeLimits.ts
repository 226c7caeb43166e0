import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { ControlChart } from "./controlChart.ts";
import type { FrozenLimits } from "./limits/frozenLimits.ts";

/**
 * The limits of the newest stretch of a chart as they are now, to be kept with who froze them and when, and given to
 * later charts as `frozen`. Limits that are frozen already are returned as they are.
 *
 * @returns refused where the newest stretch has no limits yet
 */
export function freezeLimits({ chart, replicates, points, segments }: ControlChart): Outcome<FrozenLimits> {
  const newest = segments.at(-1);
  if (!newest) return refused("there are no tests to draw limits from");
  if (!newest.limits.determinable) return refused(newest.limits.reason);
  const { limits, origin } = newest.limits;
  if (origin.from === "frozen") return accepted(origin.frozen);
  const [first, last] = [points[origin.indices[0] ?? -1], points[origin.indices.at(-1) ?? -1]];
  if (!first || !last) return refused("the tests behind the limits are not on the chart");
  const leftOut = points.slice(first.index, last.index).filter((point) => point.leftOut);
  return accepted({
    chart,
    replicates,
    centre: limits.centre,
    sigma: limits.sigma,
    tests: origin.indices.length,
    sinceAt: first.at,
    firstTestId: first.testId,
    lastTestId: last.testId,
    leftOut: leftOut.map(({ testId }) => testId),
  });
}
