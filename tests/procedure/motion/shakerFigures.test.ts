import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  peakAccelerationG,
  restatedStrokeMm,
  STANDARD_GRAVITY,
  strokeMmAt,
} from "../../../src/procedure/motion/acceleration.ts";
import { onePeriodStrokeMm } from "../../../src/procedure/motion/flight.ts";
import {
  flightByStroke,
  type ShakerFigures,
  type ShakerSetting,
  shakerFigures,
} from "../../../src/procedure/motion/shakerFigures.ts";

const figures = (setting: ShakerSetting): ShakerFigures => {
  const outcome = shakerFigures(setting);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

const anyHz = fc.double({ min: 1, max: 400, noNaN: true });
const anyStrokeMm = fc.double({ min: 0.01, max: 50, noNaN: true });

describe("stroke and acceleration", () => {
  test("1 mm of stroke at 50 Hz is half a millimetre each way: 49.348 m/s2", () => {
    const metresPerS2 = 0.0005 * (2 * Math.PI * 50) ** 2;
    expect(peakAccelerationG(1, 50)).toBeCloseTo(metresPerS2 / STANDARD_GRAVITY, 12);
    expect(peakAccelerationG(1, 50)).toBeCloseTo(5.0321, 4);
  });

  test("lead back to each other", () =>
    fc.assert(
      fc.property(anyStrokeMm, anyHz, (strokeMm, frequencyHz) => {
        const back = strokeMmAt(peakAccelerationG(strokeMm, frequencyHz), frequencyHz);
        expect(back / strokeMm).toBeCloseTo(1, 12);
      }),
    ));

  test("acceleration doubles with the stroke and quadruples with the frequency", () =>
    fc.assert(
      fc.property(anyStrokeMm, anyHz, (strokeMm, frequencyHz) => {
        const once = peakAccelerationG(strokeMm, frequencyHz);
        expect(peakAccelerationG(2 * strokeMm, frequencyHz) / once).toBeCloseTo(2, 12);
        expect(peakAccelerationG(strokeMm, 2 * frequencyHz) / once).toBeCloseTo(4, 12);
      }),
    ));

  test("stay equal when a stroke is restated for another frequency", () =>
    fc.assert(
      fc.property(anyStrokeMm, anyHz, anyHz, (strokeMm, frequencyHz, otherHz) => {
        const restated = restatedStrokeMm(strokeMm, frequencyHz, otherHz);
        const ratio = peakAccelerationG(restated, otherHz) / peakAccelerationG(strokeMm, frequencyHz);
        expect(ratio).toBeCloseTo(1, 10);
      }),
    ));
});

describe("the figures of a shaker", () => {
  test("from its stroke have exactly the keys of the contract", () => {
    const told = figures({ frequencyHz: 50, strokeMm: 1 });
    expect(Object.keys(told)).toEqual([
      "frequencyHz",
      "strokeMm",
      "peakAccelerationG",
      "throwNumber",
      "flightTimeMs",
      "flightPerPeriod",
      "onePeriodStrokeMm",
    ]);
    expect(told).toMatchObject({ frequencyHz: 50, strokeMm: 1 });
    expect(told.peakAccelerationG).toBeCloseTo(5.0321, 4);
    expect(told.throwNumber).toBe(told.peakAccelerationG);
    expect(told.flightTimeMs).toBeCloseTo(told.flightPerPeriod * 20, 12);
    expect(told.onePeriodStrokeMm).toBe(onePeriodStrokeMm(50));
  });

  test("are the same from the acceleration that goes with the stroke", () =>
    fc.assert(
      fc.property(anyStrokeMm, anyHz, (strokeMm, frequencyHz) => {
        const byStroke = figures({ frequencyHz, strokeMm });
        const byAcceleration = figures({ frequencyHz, accelerationG: byStroke.peakAccelerationG });
        expect(byAcceleration.strokeMm / strokeMm).toBeCloseTo(1, 12);
        expect(byAcceleration.flightPerPeriod).toBeCloseTo(byStroke.flightPerPeriod, 9);
      }),
    ));

  test("restated keep the acceleration: 1 mm at 50 Hz is 0.694 mm at 60 Hz", () => {
    const told = figures({ frequencyHz: 50, strokeMm: 1, restateHz: 60 });
    expect(told.restated?.frequencyHz).toBe(60);
    expect(told.restated?.strokeMm).toBeCloseTo(25 / 36, 12);
  });

  test("of a gentle shaker show no flight", () => {
    expect(figures({ frequencyHz: 50, strokeMm: 0.1 })).toMatchObject({ flightTimeMs: 0, flightPerPeriod: 0 });
  });

  test.each([
    [{ frequencyHz: 50 }, "give either the stroke or the acceleration"],
    [{ frequencyHz: 50, strokeMm: 1, accelerationG: 5 }, "give either the stroke or the acceleration"],
    [{ frequencyHz: 0, strokeMm: 1 }, "the frequency must be above 0, not 0"],
    [{ frequencyHz: Number.NaN, strokeMm: 1 }, "the frequency must be above 0, not NaN"],
    [{ frequencyHz: 50, strokeMm: -1 }, "the stroke must be above 0, not -1"],
    [{ frequencyHz: 50, accelerationG: 0 }, "the acceleration must be above 0, not 0"],
    [{ frequencyHz: 50, strokeMm: 1, restateHz: 0 }, "the frequency to restate must be above 0, not 0"],
  ])("are refused for %j", (setting, reason) => expect(shakerFigures(setting)).toEqual({ ok: false, reason }));
});

describe("flight over stroke, for a plot", () => {
  const points = flightByStroke(50, 0.1, 2.1, 21);

  test("covers the range evenly, both ends included", () => {
    expect(points.length).toBe(21);
    expect(points[0]?.strokeMm).toBe(0.1);
    expect(points[10]?.strokeMm).toBeCloseTo(1.1, 12);
    expect(points.at(-1)?.strokeMm).toBeCloseTo(2.1, 12);
  });

  test("starts with grains that stay and rises through one period", () => {
    expect(points[0]?.flightPerPeriod).toBe(0);
    const crossing = points.findIndex((point) => point.flightPerPeriod >= 1);
    expect(points[crossing - 1]?.strokeMm).toBeLessThan(onePeriodStrokeMm(50));
    expect(points[crossing]?.strokeMm).toBeGreaterThanOrEqual(onePeriodStrokeMm(50));
  });

  test("of one point is its start", () =>
    expect(flightByStroke(50, 0.5, 2, 1)).toEqual([{ strokeMm: 0.5, flightPerPeriod: expect.any(Number) }]));
});
