import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { INTERPOLATIONS } from "../../src/record/product.ts";
import { curveOfRow } from "../../src/shift/trendCurve.ts";

const row = { passingPct: { "1000": 80, "710": 45, "500": 12 } };

describe("the curve of a recorded test", () => {
  test("has its sieves as points, coarsest first", () =>
    expect(curveOfRow(row, "log-linear").points).toEqual([
      { apertureUm: 1000, passingPct: 80 },
      { apertureUm: 710, passingPct: 45 },
      { apertureUm: 500, passingPct: 12 },
    ]));

  test.each(INTERPOLATIONS)("passes exactly through its sieves, read %s", (how) => {
    const { passingAt } = curveOfRow(row, how);
    expect([1000, 710, 500].map(passingAt)).toEqual([80, 45, 12]);
  });

  test("is read between them as the product says", () => {
    const middle = Math.sqrt(710 * 1000);
    expect(curveOfRow(row, "log-linear").passingAt(middle)).toBeCloseTo(62.5, 9);
    expect(curveOfRow(row, "linear").passingAt(855)).toBeCloseTo(62.5, 9);
  });

  test.each(INTERPOLATIONS)("rises with size and ends where the sieves end, read %s", (how) => {
    const { passingAt } = curveOfRow(row, how);
    fc.assert(
      fc.property(
        fc.double({ min: 500, max: 1000, noNaN: true }),
        fc.double({ min: 500, max: 1000, noNaN: true }),
        (a, b) => {
          const [low, high] = [passingAt(Math.min(a, b)), passingAt(Math.max(a, b))];
          expect(low).not.toBeNull();
          expect((high ?? 0) - (low ?? 0)).toBeGreaterThanOrEqual(-1e-9);
        },
      ),
    );
    expect(passingAt(499.9)).toBeNull();
    expect(passingAt(1000.1)).toBeNull();
  });

  test("of no sieve, or one, is nothing, or that one", () => {
    expect(curveOfRow({ passingPct: {} }, "linear").passingAt(500)).toBeNull();
    const one = curveOfRow({ passingPct: { "500": 12 } }, "linear");
    expect([one.passingAt(500), one.passingAt(499), one.passingAt(501)]).toEqual([12, null, null]);
  });
});
