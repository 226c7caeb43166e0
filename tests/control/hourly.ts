import type { ChartPoint } from "../../src/control/chartPoint.ts";

/** The moment so many hours after an arbitrary midnight. */
export const hour = (i: number): string => new Date(Date.UTC(2026, 2, 1) + i * 3_600_000).toISOString();

/** Tests with these values, one an hour, called T0, T1, ... */
export const hourly = (values: readonly (number | null)[]): ChartPoint[] =>
  values.map((value, i) => ({ at: hour(i), testId: `T${i}`, value }));

/** Tests of several portions each, one an hour. */
export const hourlyPortions = (tests: readonly (readonly number[])[]): ChartPoint[] =>
  tests.map((replicates, i) => ({ at: hour(i), testId: `T${i}`, value: null, replicates }));
