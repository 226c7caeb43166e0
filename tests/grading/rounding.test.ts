import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { roundHalfAway, roundHalfEvenToStep, significant } from "../../src/grading/rounding.ts";

describe("roundHalfAway", () => {
  test.each([
    [2.675, 2, "2.68"],
    [1.005, 2, "1.01"],
    [8.345, 2, "8.35"],
    [0.5, 0, "1"],
    [1.5, 0, "2"],
    [2.5, 0, "3"],
    [-2.5, 0, "-3"],
    [-2.675, 2, "-2.68"],
    [98.05, 1, "98.1"],
    [2.8, 2, "2.80"],
    [1e21, 1, "1000000000000000000000.0"],
    [1e-9, 3, "0.000"],
  ])("%d to %d decimals reads %s, as rounded by hand", (value, decimals, text) => {
    expect(roundHalfAway(value, decimals)).toBe(text);
  });

  test.each([-0, -0.004, -0.0001])("%d shows no minus before zero", (value) => {
    expect(roundHalfAway(value, 2)).toBe("0.00");
    expect(roundHalfAway(value, 0)).toBe("0");
  });

  test("what the decimals hold stays as it was typed", () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), fc.integer({ min: 0, max: 4 }), (n, decimals) => {
        expect(Number(roundHalfAway(n / 10 ** decimals, decimals))).toBe(n / 10 ** decimals + 0);
      }),
    );
  });

  test("is never off by more than half a step", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.integer({ min: 0, max: 6 }),
        (value, decimals) => {
          expect(Math.abs(Number(roundHalfAway(value, decimals)) - value)).toBeLessThanOrEqual(
            0.5000001 / 10 ** decimals,
          );
        },
      ),
    );
  });

  test("a value that is no number is a fault of the caller", () => {
    expect(() => roundHalfAway(Number.NaN, 1)).toThrow();
    expect(() => roundHalfAway(Number.POSITIVE_INFINITY, 1)).toThrow();
  });
});

describe("roundHalfEvenToStep", () => {
  test.each([
    [0.15, 0.1, 0.2],
    [0.25, 0.1, 0.2],
    [0.35, 0.1, 0.4],
    [2.5, 1, 2],
    [3.5, 1, 4],
    [-2.5, 1, -2],
    [-3.5, 1, -4],
    [2.500000001, 1, 3],
    [7.5, 5, 10],
    [12.5, 5, 10],
    [0.45, 0.3, 0.6],
    [0.75, 0.3, 0.6],
    [89.95, 0.1, 90],
    [94.96, 0.5, 95],
    [1e-7, 0.01, 0],
  ])("%d to steps of %d gives %d", (value, step, rounded) => {
    expect(roundHalfEvenToStep(value, step)).toBe(rounded);
  });

  test("never gives a negative zero", () => {
    expect(Object.is(roundHalfEvenToStep(-0.04, 0.1), 0)).toBe(true);
    expect(Object.is(roundHalfEvenToStep(-0, 0.1), 0)).toBe(true);
  });

  test("rounding twice changes nothing more", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e5, max: 1e5, noNaN: true }),
        fc.constantFrom(0.01, 0.1, 0.5, 1, 5),
        (value, step) => {
          const once = roundHalfEvenToStep(value, step);
          expect(roundHalfEvenToStep(once, step)).toBe(once);
          expect(Math.abs(once - value)).toBeLessThanOrEqual(step * 0.5000001);
        },
      ),
    );
  });

  test.each([0, -1, Number.NaN])("a step of %d is a fault of the caller", (step) => {
    expect(() => roundHalfEvenToStep(1, step)).toThrow(RangeError);
  });
});

describe("significant", () => {
  test.each([
    [1398, 3, "1400"],
    [710, 3, "710"],
    [1.4, 3, "1.40"],
    [22.4, 3, "22.4"],
    [0.09996, 3, "0.100"],
    [9.995, 3, "10.0"],
    [99.95, 3, "100"],
    [-0.00012345, 2, "-0.00012"],
    [2.675, 3, "2.68"],
    [123456789, 2, "120000000"],
    [0, 3, "0"],
    [-0, 3, "0"],
  ])("%d with %d digits reads %s", (value, digits, text) => {
    expect(significant(value, digits)).toBe(text);
  });
});
