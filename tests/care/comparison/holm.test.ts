import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { standing } from "../../../src/care/comparison/holm.ts";
import { chanceFrom } from "../simulation/chance.ts";

const ps = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 });

describe("Holm's step-down", () => {
  test.each([
    [[0.04], [true]],
    [[0.06], [false]],
    [
      [0.01, 0.02, 0.03],
      [true, true, true],
    ],
    [
      [0.02, 0.02, 0.02],
      [false, false, false],
    ],
    [
      [0.001, 0.9, 0.02],
      [true, false, true],
    ],
    [
      [0.9, 0.03, 0.001],
      [false, false, true],
    ],
  ])("of %j at 5 %% lets stand %j", (of, stands) => expect(standing(of, 0.05)).toEqual(stands));

  test("lets stand all that Bonferroni lets stand, and nothing that fails alone", () =>
    fc.assert(
      fc.property(ps, (of) => {
        for (const [i, stands] of standing(of, 0.05).entries()) {
          if ((of[i] ?? 1) <= 0.05 / of.length) expect(stands).toBe(true);
          if ((of[i] ?? 1) > 0.05) expect(stands).toBe(false);
        }
      }),
    ));

  test("a smaller p never stands less than a larger one", () =>
    fc.assert(
      fc.property(ps, (of) => {
        const stands = standing(of, 0.05);
        const last = Math.max(...of.filter((_, i) => stands[i]), -1);
        expect(of.every((p, i) => p > last || stands[i])).toBe(true);
      }),
    ));

  test("cries wolf over eight true nulls in 5 % of trials", () => {
    const { even } = chanceFrom(8);
    const trials = 20_000;
    let wolves = 0;
    for (let k = 0; k < trials; k++) if (standing(Array.from({ length: 8 }, even), 0.05).includes(true)) wolves++;
    expect(wolves / trials).toBeCloseTo(0.05, 2);
  });
});
