import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { studentCdf, studentQuantile } from "../../src/care/studentT.ts";
import { normalCdf } from "../../src/grading/normal.ts";
import { chanceFrom } from "./simulation/chance.ts";

const degrees = fc.integer({ min: 1, max: 200 });
const t = fc.double({ min: -40, max: 40, noNaN: true });

describe("Student's t", () => {
  test("of one degree is Cauchy's, of two has a closed form", () => {
    expect(studentCdf(1, 1)).toBeCloseTo(0.75, 14);
    expect(studentCdf(2, 2)).toBeCloseTo(0.5 + 2 / (2 * Math.sqrt(2 + 4)), 14);
  });

  test("is symmetric, rises and stays within 0 to 1", () =>
    fc.assert(
      fc.property(t, degrees, (at, df) => {
        expect(studentCdf(at, df) + studentCdf(-at, df)).toBeCloseTo(1, 12);
        expect(studentCdf(at + 0.1, df)).toBeGreaterThanOrEqual(studentCdf(at, df) - 1e-13);
        expect(studentCdf(at, df)).toBeGreaterThanOrEqual(-1e-12);
        expect(studentCdf(at, df)).toBeLessThanOrEqual(1 + 1e-12);
      }),
    ));

  test("nears the normal with many degrees", () => expect(studentCdf(1.5, 100_001)).toBeCloseTo(normalCdf(1.5), 5));

  test("quantile and share undo each other", () =>
    fc.assert(
      fc.property(fc.double({ min: 0.0005, max: 0.9995, noNaN: true }), degrees, (p, df) => {
        expect(studentCdf(studentQuantile(p, df), df)).toBeCloseTo(p, 10);
      }),
    ));

  test("is how often a mean of normal noise strays: 5 % of 20 000 samples of six", () => {
    const { normal } = chanceFrom(3);
    const limit = studentQuantile(0.975, 5);
    let beyond = 0;
    for (let i = 0; i < 20_000; i++) {
      const six = Array.from({ length: 6 }, () => normal(0, 1));
      const mean = six.reduce((a, b) => a + b, 0) / 6;
      const s = Math.sqrt(six.reduce((a, b) => a + (b - mean) ** 2, 0) / 5);
      if (Math.abs(mean) / (s / Math.sqrt(6)) > limit) beyond++;
    }
    expect(beyond / 20_000).toBeCloseTo(0.05, 2);
  });

  test.each([0, -1, 2.5, Number.NaN])("refuses %d degrees of freedom", (df) =>
    expect(() => studentCdf(1, df)).toThrow(RangeError),
  );
  test.each([0, 1, -0.1, Number.NaN])("refuses the share %d", (p) =>
    expect(() => studentQuantile(p, 5)).toThrow(RangeError),
  );
});
