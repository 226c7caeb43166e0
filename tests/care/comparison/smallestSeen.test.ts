import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { powerOf } from "../../../src/care/comparison/power.ts";
import { pairsToSee, smallestSeen } from "../../../src/care/comparison/smallestSeen.ts";
import { studentQuantile } from "../../../src/care/studentT.ts";
import { numberOf, reasonOf } from "../../grading/stack.ts";
import { chanceFrom } from "../simulation/chance.ts";

const seeing = { alpha: 0.05 };

/** How often a paired t test of so many pairs shows a true difference. */
function shownShare(x: number, deviation: number, pairs: number, trials: number): number {
  const { normal } = chanceFrom(pairs);
  const limit = studentQuantile(0.975, pairs - 1);
  let shown = 0;
  for (let k = 0; k < trials; k++) {
    const d = Array.from({ length: pairs }, () => normal(x, deviation));
    const mean = d.reduce((a, b) => a + b, 0) / pairs;
    const s = Math.sqrt(d.reduce((a, b) => a + (b - mean) ** 2, 0) / (pairs - 1));
    if (Math.abs(mean) > (limit * s) / Math.sqrt(pairs)) shown++;
  }
  return shown / trials;
}

describe("the power of the paired t test", () => {
  test("of no difference is alpha", () => {
    for (const pairs of [2, 3, 8, 50]) expect(powerOf(0, pairs, 0.05)).toBeCloseTo(0.05, 5);
  });

  test("grows with the difference, the pairs and alpha, and is a share", () =>
    fc.assert(
      fc.property(fc.double({ min: 0, max: 3, noNaN: true }), fc.integer({ min: 2, max: 60 }), (d, pairs) => {
        const power = powerOf(d, pairs, 0.05);
        expect(power).toBeGreaterThanOrEqual(0.05 - 1e-5);
        expect(power).toBeLessThanOrEqual(1 + 1e-9);
        expect(powerOf(d + 0.1, pairs, 0.05)).toBeGreaterThanOrEqual(power - 1e-9);
        expect(powerOf(d, pairs + 1, 0.05)).toBeGreaterThanOrEqual(power - 1e-5);
        expect(powerOf(d, pairs, 0.1)).toBeGreaterThan(power - 1e-9);
      }),
    ));
});

describe("the smallest difference that is seen", () => {
  test("is seen about nine times in ten by trial", () => {
    for (const pairs of [4, 8, 20]) {
      const x = numberOf(smallestSeen(0.4, pairs, seeing));
      expect(Math.abs(shownShare(x, 0.4, pairs, 6000) - 0.9)).toBeLessThan(0.012);
    }
  });

  test("shrinks with more pairs and grows with the scatter", () =>
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 200 }), fc.double({ min: 0.01, max: 9, noNaN: true }), (pairs, s) => {
        const seen = numberOf(smallestSeen(s, pairs, seeing));
        expect(numberOf(smallestSeen(s, pairs + 1, seeing))).toBeLessThan(seen);
        expect(numberOf(smallestSeen(2 * s, pairs, seeing))).toBeCloseTo(2 * seen, 6);
      }),
    ));

  test("is not known from one pair", () => expect(reasonOf(smallestSeen(1, 1, seeing))).toMatch(/two are needed/));
});

describe("the pairs that show a difference", () => {
  test("are the fewest that do", () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.6, max: 20, noNaN: true }),
        fc.double({ min: 0.1, max: 5, noNaN: true }),
        (x, s) => {
          const pairs = numberOf(pairsToSee(x, s, seeing));
          expect(numberOf(smallestSeen(s, pairs, seeing))).toBeLessThanOrEqual(x * (1 + 1e-9));
          if (pairs > 2) expect(numberOf(smallestSeen(s, pairs - 1, seeing))).toBeGreaterThan(x);
        },
      ),
      { numRuns: 40 },
    ));

  test("may be too many, and of nothing there is nothing to see", () => {
    expect(reasonOf(pairsToSee(0.0001, 10, seeing))).toMatch(/1000 pairs/);
    expect(reasonOf(pairsToSee(0, 1, seeing))).toMatch(/above 0/);
  });
});
