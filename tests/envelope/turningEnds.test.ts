import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { turningEnds } from "../../src/envelope/turningEnds.ts";
import { roundHalfEvenToStep } from "../../src/grading/rounding.ts";

describe("the ends at which a limit turns", () => {
  test("are its own where nothing is rounded", () => {
    expect(turningEnds({ min: 10, max: null }, undefined)).toEqual({ min: 10, max: null });
    expect(turningEnds({ min: 10, max: 20 }, "absolute")).toEqual({ min: 10, max: 20 });
  });

  // Halves go to the even multiple (ASTM E29, memory): 94.5 to 94, 95.5 to 96.
  test.each([
    [95, 1, 94.5, false],
    [96, 1, 95.5, true],
    [95.3, 1, 95.5, true],
    [2.3, 0.1, 2.25, false],
    [-1, 1, -1.5, false],
  ] as const)("a limit of at least %s in steps of %s turns at %s, itself inside: %s", (min, roundedTo, at, inside) => {
    const end = turningEnds({ min, max: null }, { roundedTo }).min ?? Number.NaN;
    expect(Math.abs(end - at)).toBeLessThan(1e-12);
    expect(end === at).toBe(inside);
  });

  test("part what is met from what is missed exactly as rounding does", () =>
    fc.assert(
      fc.property(
        fc.integer({ min: -2000, max: 2000 }),
        fc.constantFrom(0.05, 0.1, 0.5, 1, 5),
        fc.integer({ min: -400, max: 400 }),
        (bound100, roundedTo, off100) => {
          const bound = bound100 / 100;
          const value = (bound100 + off100) / 100;
          const { min, max } = turningEnds({ min: bound, max: bound }, { roundedTo });
          const rounded = roundHalfEvenToStep(value, roundedTo);
          expect([value, value >= (min ?? 0)]).toEqual([value, rounded >= bound]);
          expect([value, value <= (max ?? 0)]).toEqual([value, rounded <= bound]);
        },
      ),
      { numRuns: 2000 },
    ));
});
