import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { deviationOf, meanOf, medianOf, medianOfSorted } from "../../src/control/summary.ts";
import { expectNear } from "../grading/near.ts";

const values = fc.array(fc.integer({ min: -9999, max: 9999 }), { minLength: 1, maxLength: 40 });

describe("mean", () => {
  test("of a few numbers", () => expect(meanOf([1, 2, 6])).toBe(3));
  test("of nothing is the caller's fault", () => expect(() => meanOf([])).toThrow(RangeError));
  test("lies between the least and the greatest", () => {
    fc.assert(
      fc.property(values, (some) => {
        const mean = meanOf(some);
        expect(mean).toBeGreaterThanOrEqual(Math.min(...some) - 1e-9);
        expect(mean).toBeLessThanOrEqual(Math.max(...some) + 1e-9);
      }),
    );
  });
});

describe("standard deviation of a sample", () => {
  test("divides by n - 1", () => expectNear(deviationOf([2, 4, 4, 4, 5, 5, 7, 9]), Math.sqrt(32 / 7), 1e-15));
  test("of one value is 0, as is that of equal ones", () => {
    expect(deviationOf([3])).toBe(0);
    expect(deviationOf([3, 3, 3])).toBe(0);
  });
  test("does not change with the place of the values", () => {
    fc.assert(
      fc.property(values, fc.integer({ min: -1000, max: 1000 }), (some, by) => {
        expectNear(deviationOf(some.map((value) => value + by)), deviationOf(some), 1e-9, 1e-9);
      }),
    );
  });
});

describe("median", () => {
  test("of an odd number is the middle one", () => expect(medianOf([9, 1, 5])).toBe(5));
  test("of an even number is between the middle two", () => expect(medianOf([9, 1, 5, 6])).toBe(5.5));
  test("sorts as numbers, not as text", () => expect(medianOf([10, 9, 100])).toBe(10));
  test("leaves the values in their order", () => {
    const given = [3, 1, 2];
    medianOf(given);
    expect(given).toEqual([3, 1, 2]);
  });
  test("of nothing is the caller's fault", () => expect(() => medianOfSorted([])).toThrow(RangeError));
  test("has as many values above it as below", () => {
    fc.assert(
      fc.property(values, (some) => {
        const median = medianOf(some);
        const half = some.length / 2;
        expect(some.filter((value) => value < median).length).toBeLessThanOrEqual(half);
        expect(some.filter((value) => value > median).length).toBeLessThanOrEqual(half);
      }),
    );
  });
});
