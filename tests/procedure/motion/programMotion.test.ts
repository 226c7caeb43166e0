import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ONE_PERIOD_THROW } from "../../../src/procedure/motion/flight.ts";
import { programMotion } from "../../../src/procedure/motion/programMotion.ts";
import { MOTIONS, type Program } from "../../../src/record/program.ts";

type Settings = Parameters<typeof programMotion>[0];

const V10: Settings = { motion: "vertical throw", frequencyHz: 50, strokeMm: 1.2 };

function motionOf(program: Settings) {
  const outcome = programMotion(program);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

const reasonOf = (program: Partial<Program>): string => {
  const outcome = programMotion({ motion: "vertical throw", ...program });
  if (outcome.ok) throw new Error("has figures");
  return outcome.reason;
};

describe("a program that throws", () => {
  test("by its stroke: 1.2 mm at 50 Hz is 0.0006 m (100 pi)^2 / 9.80665 = 6.0385 g", () => {
    expect(motionOf(V10).written.peakAccelerationG).toBeCloseTo((0.0006 * (100 * Math.PI) ** 2) / 9.80665, 12);
    expect(motionOf(V10).written.peakAccelerationG).toBeCloseTo(6.0385, 4);
  });

  test("by its acceleration leads to the same stroke", () => {
    const { peakAccelerationG } = motionOf(V10).written;
    const byG = motionOf({ motion: "vertical throw", frequencyHz: 50, peakAccelerationG });
    expect(byG.written.strokeMm).toBeCloseTo(1.2, 12);
  });

  test("restated for 60 Hz has 25/36 of the stroke and the same acceleration and flight per period", () => {
    const { written, elsewhere } = motionOf(V10);
    expect(elsewhere?.frequencyHz).toBe(60);
    expect(elsewhere?.strokeMm).toBeCloseTo((1.2 * 25) / 36, 12);
    expect(elsewhere?.peakAccelerationG).toBe(written.peakAccelerationG);
    expect(elsewhere?.flightPerPeriod).toBe(written.flightPerPeriod);
    expect(elsewhere?.flightTimeMs).toBeCloseTo((written.flightTimeMs * 5) / 6, 9);
  });

  test("restated there and back is what it was", () =>
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 20, noNaN: true }), fc.constantFrom(50, 60), (strokeMm, frequencyHz) => {
        const there = motionOf({ motion: "vertical throw", frequencyHz, strokeMm }).elsewhere;
        const back = motionOf({
          motion: "vertical throw",
          frequencyHz: there?.frequencyHz ?? 0,
          strokeMm: there?.strokeMm ?? 0,
        }).elsewhere;
        expect(back?.frequencyHz).toBe(frequencyHz);
        expect((back?.strokeMm ?? 0) / strokeMm).toBeCloseTo(1, 10);
      }),
    ));

  test("at another frequency than the mains' is not restated", () =>
    expect(motionOf({ ...V10, frequencyHz: 42 }).elsewhere).toBeNull());

  test("names the one-period strokes at 50 and 60 Hz, where it would fly for one period", () => {
    const { onePeriod } = motionOf(V10);
    expect(onePeriod.map(({ frequencyHz }) => frequencyHz)).toEqual([50, 60]);
    for (const { frequencyHz, strokeMm } of onePeriod) {
      const { written } = motionOf({ motion: "vertical throw", frequencyHz, strokeMm });
      expect(written.throwNumber).toBeCloseTo(ONE_PERIOD_THROW, 10);
      expect(written.flightPerPeriod).toBeCloseTo(1, 8);
    }
  });
});

describe("a program that states both stroke and acceleration", () => {
  test("is taken by its stroke, and an acceleration that disagrees is told", () => {
    const found = motionOf({ ...V10, peakAccelerationG: 3 });
    expect(found.written).toEqual(motionOf(V10).written);
    expect(found.statedG).toBe(3);
  });

  test("within 2 % they agree, and nothing is told", () => {
    expect(motionOf({ ...V10, peakAccelerationG: 6.1 }).statedG).toBeNull();
    expect(motionOf({ ...V10, peakAccelerationG: 6.2 }).statedG).toBe(6.2);
    expect(motionOf(V10).statedG).toBeNull();
  });
});

describe("a program without figures says why", () => {
  test.each(MOTIONS.filter((motion) => motion !== "vertical throw"))("%s throws nothing", (motion) =>
    expect(reasonOf({ ...V10, motion })).toBe(`${motion}: grains are not thrown, so none fly`),
  );

  test("a setting is missing", () => {
    expect(reasonOf({ strokeMm: 1.2 })).toBe("the program gives no frequency");
    expect(reasonOf({ frequencyHz: 50 })).toBe("the program gives neither stroke nor acceleration");
  });
});
