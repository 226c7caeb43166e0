import { describe, expect, test } from "vitest";
import { strokeMmAt } from "../../src/procedure/motion/acceleration.ts";
import { flightPeriods, ONE_PERIOD_THROW, onePeriodStrokeMm } from "../../src/procedure/motion/flight.ts";
import { shakerFigures } from "../../src/procedure/motion/shakerFigures.ts";
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

/** Settings of shakers worked out by another program that marches along the flight in steps (generated). */
describe("figures of a shaker (generated)", () => {
  test.each([
    [25, 0.4, 0.5032, 0, 0],
    [25, 0.8, 1.0064, 0.072, 2.88],
    [25, 1.2, 1.5096, 0.572, 22.88],
    [25, 2, 2.516, 0.8605, 34.421],
    [25, 3, 3.7741, 1.0811, 43.245],
    [30, 0.4, 0.7246, 0, 0],
    [30, 0.8, 1.4492, 0.5432, 18.108],
    [30, 1.2, 2.1739, 0.7858, 26.193],
    [30, 2, 3.6231, 1.0548, 35.161],
    [30, 3, 5.4347, 1.8384, 61.281],
    [50, 0.4, 2.0128, 0.7449, 14.899],
    [50, 0.8, 4.0257, 1.1286, 22.572],
    [50, 1.2, 6.0385, 1.9473, 38.947],
    [50, 2, 10.0642, 3.0969, 61.938],
    [50, 3, 15.0963, 4.8936, 97.872],
    [60, 0.4, 2.8985, 0.9321, 15.534],
    [60, 0.8, 5.797, 1.9063, 31.772],
    [60, 1.2, 8.6955, 2.8679, 47.798],
    [60, 2, 14.4924, 4.7648, 79.413],
    [60, 3, 21.7387, 6.9559, 115.931],
  ])("%d Hz, stroke %d mm: %d g, %d periods, %d ms", (frequencyHz, strokeMm, accelerationG, periods, timeMs) => {
    const told = shakerFigures({ frequencyHz, strokeMm });
    if (!told.ok) throw new Error(told.reason);
    expect(Math.abs(told.value.peakAccelerationG - accelerationG)).toBeLessThanOrEqual(0.000051);
    expect(Math.abs(told.value.flightPerPeriod - periods)).toBeLessThanOrEqual(0.000051);
    expect(Math.abs(told.value.flightTimeMs - timeMs)).toBeLessThanOrEqual(0.00051);
  });
});
