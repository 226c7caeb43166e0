import { describe, expect, test } from "vitest";
import { strokeMmAt } from "../../src/procedure/motion/acceleration.ts";
import { flightPeriods, ONE_PERIOD_THROW, onePeriodStrokeMm } from "../../src/procedure/motion/flight.ts";
import { simulatedFlightPeriods } from "../procedure/motion/bouncingGrain.ts";

/**
 * The bouncing grain with the throw number A w^2/g: Devillard, J. Phys. I France 4 (1994) 1003 (seen: the problem and
 * the number). The figures below were worked out and simulated by another program (generated).
 */
describe("first flight in periods (generated)", () => {
  test.each([
    [1.5, 0.568],
    [2, 0.741],
    [2.5, 0.857],
    [3, 0.95],
    [3.297, 1],
    [3.4, 1.017],
    [3.7, 1.068],
  ])("throw number %d: %d", (throwNumber, periods) =>
    expect(Math.abs(flightPeriods(throwNumber) - periods)).toBeLessThanOrEqual(0.00051),
  );

  test.each([
    [2.5, 0.143],
    [3, 0.05],
  ])("at throw number %d the grain rests for %d of each period", (throwNumber, rest) =>
    expect(Math.abs(1 - flightPeriods(throwNumber) - rest)).toBeLessThanOrEqual(0.00051),
  );

  test("the throw of one period, searched numerically, is 3.2969083", () =>
    expect(Math.abs(ONE_PERIOD_THROW - 3.2969083)).toBeLessThan(5e-8));
});

describe("amplitude for a flight of one period (generated), half of our stroke", () => {
  test.each([
    [25, 1.31],
    [30, 0.91],
    [50, 0.328],
    [60, 0.227],
  ])("%d Hz: %d mm", (frequencyHz, amplitudeMm) =>
    expect(Math.abs(onePeriodStrokeMm(frequencyHz) / 2 - amplitudeMm)).toBeLessThanOrEqual(0.00051),
  );

  test.each([
    [50, 0.655],
    [60, 0.455],
  ])("at %d Hz the total stroke is %d mm", (frequencyHz, strokeMm) =>
    expect(Math.abs(onePeriodStrokeMm(frequencyHz) - strokeMm)).toBeLessThanOrEqual(0.00051),
  );
});

describe("what screening texts say (memory): about 3.3 g throws a grain for one period", () => {
  test("holds for a grain followed step by step", () =>
    expect(Math.abs(simulatedFlightPeriods(strokeMmAt(3.3, 50), 50) - 1)).toBeLessThan(0.005));
});
