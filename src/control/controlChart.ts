import type { Determination } from "../record/determination.ts";
import type { Capability } from "./capability/capability.ts";
import type { ChartKind } from "./chartKind.ts";
import type { SetAside } from "./chartPoint.ts";
import type { Forecast } from "./drift/forecast.ts";
import type { SegmentLimits } from "./limits/segment.ts";
import type { CusumChoice, CusumPoint } from "./memory/cusum.ts";
import type { EwmaChoice, EwmaPoint } from "./memory/ewma.ts";
import type { Signal } from "./rules/signals.ts";

/** A test as the chart shows it. */
export interface ChartedPoint {
  /** Its place among the points of the chart. */
  readonly index: number;
  readonly at: string;
  readonly testId: string;
  readonly value: number;
  /** Its moving range, range or standard deviation; a moving range is null at the start and beside a test left out. */
  readonly spread: number | null;
  /** Place of its stretch among the segments. */
  readonly segment: number;
  /** Whether the limits of its stretch were drawn from it, too. */
  readonly inBaseline: boolean;
  readonly leftOut: boolean;
  /** What run rules and the chart of spreads see here; see `ewma` and `cusum` for theirs. */
  readonly signals: readonly Signal[];
}

/** A stretch of tests between two logged changes, with its limits or why there are none. */
export interface Segment {
  readonly index: number;
  readonly from: number;
  readonly to: number;
  /** The change that began it, in words; null for the first. */
  readonly why: string | null;
  readonly limits: SegmentLimits;
}

/** A point of a chart with memory, at the place of its test; tests without limits or left out have none. */
export type Placed<T> = T & { readonly index: number; readonly signal: Signal | null };

/** Everything that a trend shows, plain enough for JSON. */
export interface ControlChart {
  readonly chart: ChartKind;
  readonly unit: string;
  /** Portions a test, 1 on a chart of individuals. */
  readonly replicates: number;
  /** What the second chart shows: "moving range", "range" or "standard deviation". */
  readonly spreadName: string;
  /** The lines that the newest test is judged by. */
  readonly centre: Determination;
  readonly lower: Determination;
  readonly upper: Determination;
  /** Standard deviation of a plotted value behind these lines. */
  readonly sigma: Determination;
  readonly points: readonly ChartedPoint[];
  readonly setAside: readonly SetAside[];
  readonly segments: readonly Segment[];
  readonly ewma: EwmaChoice & { readonly points: readonly Placed<EwmaPoint>[] };
  readonly cusum: CusumChoice & { readonly points: readonly Placed<CusumPoint>[] };
  /** Of the newest stretch. */
  readonly capability: Capability;
  readonly forecast: Forecast;
  /** What else a reader must know, in words. */
  readonly notes: readonly string[];
}
