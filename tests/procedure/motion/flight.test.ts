import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { peakAccelerationG, strokeMmAt } from "../../../src/procedure/motion/acceleration.ts";
import { flightPeriods, ONE_PERIOD_THROW, onePeriodStrokeMm } from "../../../src/procedure/motion/flight.ts";
import { simulatedFlightPeriods } from "./bouncingGrain.ts";

/** Height of the grain over the sieve, in units of the amplitude, t radians after it left. */
const heightOver = (throwNumber: number, t: number): number => {
  const p = Math.asin(1 / throwNumber);
  return Math.sin(p) + Math.cos(p) * t - t ** 2 / (2 * throwNumber) - Math.sin(p + t);
};

const anyThrow = fc.double({ min: 1.05, max: 60, noNaN: true });

describe("the first flight of a grain", () => {
  test.each([1.05, 1.2, 1.5, 2, 2.5, 3, 3.297, 3.4, 3.7, 4.5, 4.6, 4.7, 6, 8, 12])(
    "at throw number %d is that of a grain followed step by step",
    (throwNumber) => {
      const simulated = simulatedFlightPeriods(strokeMmAt(throwNumber, 50), 50);
      expect(Math.abs(flightPeriods(throwNumber) - simulated)).toBeLessThan(0.002);
    },
  );

  test.each([25, 30, 60])("does not depend on the frequency by itself: %d Hz", (frequencyHz) => {
    const simulated = simulatedFlightPeriods(strokeMmAt(2.2, frequencyHz), frequencyHz);
    expect(Math.abs(flightPeriods(2.2) - simulated)).toBeLessThan(0.001);
  });

  test("ends where the grain meets the sieve", () =>
    fc.assert(
      fc.property(anyThrow, (throwNumber) => {
        const t = 2 * Math.PI * flightPeriods(throwNumber);
        expect(Math.abs(heightOver(throwNumber, t))).toBeLessThan(1e-9 * Math.max(1, t ** 2));
      }),
    ));

  test("has the grain above the sieve all the while", () =>
    fc.assert(
      fc.property(anyThrow, fc.double({ min: 0.02, max: 0.98, noNaN: true }), (throwNumber, share) => {
        const t = 2 * Math.PI * flightPeriods(throwNumber) * share;
        expect(heightOver(throwNumber, t)).toBeGreaterThan(-1e-12);
      }),
    ));

  test("is never shorter for a stronger throw", () =>
    fc.assert(
      fc.property(anyThrow, fc.double({ min: 0.001, max: 5, noNaN: true }), (throwNumber, more) => {
        expect(flightPeriods(throwNumber + more)).toBeGreaterThanOrEqual(flightPeriods(throwNumber));
      }),
    ));

  test.each([1, 0.99, 0.5, 0, -1])("is none at throw number %d: the grain stays on the sieve", (throwNumber) =>
    expect(flightPeriods(throwNumber)).toBe(0),
  );

  test("the step-by-step grain stays there as well", () =>
    expect(simulatedFlightPeriods(strokeMmAt(0.99, 50), 50, 5000)).toBe(0));

  test("starts from nothing just above 1 g: about 4 sqrt(G^2 - 1) radians", () => {
    for (const above of [1e-3, 1e-6, 1e-9, 1e-12]) {
      const throwNumber = 1 + above;
      const radians = 4 * Math.sqrt((throwNumber - 1) * (throwNumber + 1));
      expect(flightPeriods(throwNumber) / (radians / (2 * Math.PI))).toBeCloseTo(1, above > 1e-4 ? 1 : 4);
    }
  });

  test("runs smoothly through the change to the series for short flights", () => {
    const at = (t: number) => Math.hypot(1, (t ** 2 / 2 - 1 + Math.cos(t)) / (t - Math.sin(t)));
    for (const t of [0.19, 0.1999, 0.2001, 0.21]) expect(flightPeriods(at(t)) * 2 * Math.PI).toBeCloseTo(t, 8);
  });

  test("lasts about 2 G / w for a very strong throw, as a ball thrown upwards does", () => {
    const radians = flightPeriods(1000) * 2 * Math.PI;
    expect(Math.abs(radians / 2000 - 1)).toBeLessThan(0.01);
  });
});

describe("flight of one period", () => {
  test("comes at the square root of 1 + pi^2", () => {
    expect(ONE_PERIOD_THROW).toBeCloseTo(3.2969083, 7);
    expect(flightPeriods(ONE_PERIOD_THROW)).toBeCloseTo(1, 12);
  });

  test("is shorter just below and longer just above", () => {
    expect(flightPeriods(ONE_PERIOD_THROW - 0.01)).toBeLessThan(1);
    expect(flightPeriods(ONE_PERIOD_THROW + 0.01)).toBeGreaterThan(1);
  });

  test.each([25, 30, 50, 60, 400])("at %d Hz is met by the stroke that is told", (frequencyHz) => {
    const strokeMm = onePeriodStrokeMm(frequencyHz);
    expect(flightPeriods(peakAccelerationG(strokeMm, frequencyHz))).toBeCloseTo(1, 10);
    expect(simulatedFlightPeriods(strokeMm, frequencyHz)).toBeCloseTo(1, 2);
  });
});
