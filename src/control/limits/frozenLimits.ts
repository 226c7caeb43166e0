import type { ChartKind } from "../chartKind.ts";
import type { CentreAndSigma } from "./chartLimits.ts";

/**
 * Limits that stay as they are whatever is tested later: plain JSON, to be kept with who froze them and when. The
 * lines themselves follow from centre and sigma.
 */
export interface FrozenLimits extends CentreAndSigma {
  readonly chart: ChartKind;
  /** Portions a test, 1 on a chart of individuals. */
  readonly replicates: number;
  /** Tests that they were drawn from. */
  readonly tests: number;
  /** The moment of the first of these tests; the limits hold from here to the next logged change. */
  readonly sinceAt: string;
  readonly firstTestId: string;
  readonly lastTestId: string;
  /** Tests in between that were shown but left out of the reckoning. */
  readonly leftOut: readonly string[];
}

/** Whether limits were frozen for what a chart plots. */
export const fitsChart = (frozen: FrozenLimits, chart: ChartKind, replicates: number): boolean =>
  frozen.chart === chart && frozen.replicates === replicates;
