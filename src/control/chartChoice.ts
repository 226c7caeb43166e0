import type { Tolerance } from "./capability/indices.ts";
import type { ChartKind } from "./chartKind.ts";
import { type ForecastChoice, USUAL_FORECAST } from "./drift/forecast.ts";
import type { FrozenLimits } from "./limits/frozenLimits.ts";
import type { Restart } from "./limits/spans.ts";
import { type CusumChoice, USUAL_CUSUM } from "./memory/cusum.ts";
import { type EwmaChoice, USUAL_EWMA } from "./memory/ewma.ts";
import { type RunRuleId, WESTERN_ELECTRIC_RULES } from "./rules/rules.ts";

/** How tests are charted. */
export interface ChartChoice {
  readonly chart: ChartKind;
  /** Unit of the values: "um", "%", "1", ... */
  readonly unit: string;
  /** What the customer allows; used for capability and forecast only. */
  readonly tolerance: Tolerance;
  /** Limits come from the first `tests` of a stretch; with fewer than `least` there are none yet. */
  readonly baseline: { readonly tests: number; readonly least: number };
  /**
   * Tests that are shown, and judged each by itself, but left out of everything that is reckoned from several: limits,
   * moving ranges, runs, averages, sums, capability and forecast.
   */
  readonly leftOut: readonly string[];
  readonly restarts: readonly Restart[];
  readonly frozen: readonly FrozenLimits[];
  readonly rules: readonly RunRuleId[];
  /** Whether a spread beyond its own limits signals. */
  readonly spreadSignals: boolean;
  readonly ewma: EwmaChoice;
  readonly cusum: CusumChoice;
  readonly forecast: ForecastChoice;
}

/**
 * Individuals and moving range, limits from the first 25 tests (8 at least; common practice, no source), the zone
 * rules of Western Electric (convention CP-17).
 */
export const USUAL_CHOICE: ChartChoice = {
  chart: "individuals",
  unit: "1",
  tolerance: { min: null, max: null },
  baseline: { tests: 25, least: 8 },
  leftOut: [],
  restarts: [],
  frozen: [],
  rules: WESTERN_ELECTRIC_RULES,
  spreadSignals: true,
  ewma: USUAL_EWMA,
  cusum: USUAL_CUSUM,
  forecast: USUAL_FORECAST,
};
