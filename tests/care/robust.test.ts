import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { deviationOf, meanOf, medianOf, middleMean, scatterOf } from "../../src/care/robust.ts";
import { chanceFrom } from "./simulation/chance.ts";

const numbers = fc.array(fc.double({ min: -1000, max: 1000, noNaN: true }), { minLength: 1, maxLength: 60 });

describe("median", () => {
  test.each([
    [[3], 3],
    [[4, 1], 2.5],
    [[9, 1, 5], 5],
    [[1, 2, 3, 1000], 2.5],
  ])("of %j is %d", (of, median) => expect(medianOf(of)).toBe(median));

  test("has as many numbers on either side", () =>
    fc.assert(
      fc.property(numbers, (of) => {
        const median = medianOf(of);
        expect(of.filter((n) => n < median).length).toBeLessThanOrEqual(of.length / 2);
        expect(of.filter((n) => n > median).length).toBeLessThanOrEqual(of.length / 2);
      }),
    ));
});

describe("robust mean", () => {
  test("leaves a fifth out at each end", () => {
    expect(middleMean([1, 2, 3, 4, 5, 6, 7, 8, 9, 1e9])).toBe((3 + 4 + 5 + 6 + 7 + 8) / 6);
    expect(middleMean([1, 2, 3, 4])).toBe(2.5);
  });

  test("moves with its numbers and lies among them", () =>
    fc.assert(
      fc.property(numbers, fc.double({ min: -100, max: 100, noNaN: true }), (of, by) => {
        const mean = middleMean(of);
        expect(mean).toBeGreaterThanOrEqual(Math.min(...of) - 1e-9);
        expect(mean).toBeLessThanOrEqual(Math.max(...of) + 1e-9);
        expect(middleMean(of.map((n) => n + by))).toBeCloseTo(mean + by, 6);
      }),
    ));

  test("does not follow a fifth of wild numbers", () => {
    const calm = Array.from({ length: 16 }, (_, i) => 10 + 0.01 * i);
    expect(middleMean([...calm, 1e6, -1e6, 1e6, 1e6])).toBeCloseTo(10.08, 1);
  });
});

describe("scatter", () => {
  const { normal } = chanceFrom(5);
  const noise = Array.from({ length: 4000 }, () => normal(0, 0.02));

  test("is the standard deviation of normal noise", () => expect(scatterOf(noise)).toBeCloseTo(0.02, 3));
  test("does not feel a slow drift", () => expect(scatterOf(noise.map((n, i) => n + i * 0.0005))).toBeCloseTo(0.02, 3));
  test("does not feel single wild weighings", () =>
    expect(scatterOf(noise.map((n, i) => (i % 50 === 7 ? n + 5 : n)))).toBeCloseTo(0.021, 2));
  test("is not known from two", () => expect(scatterOf([1, 2])).toBe(0));
});

test("mean and deviation are those of the textbook", () => {
  expect(meanOf([2, 4, 4, 4, 5, 5, 7, 9])).toBe(5);
  expect(deviationOf([2, 4, 4, 4, 5, 5, 7, 9])).toBeCloseTo(Math.sqrt(32 / 7), 12);
  expect(deviationOf([2])).toBeNaN();
});
