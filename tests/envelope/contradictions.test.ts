import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { contradictions } from "../../src/envelope/contradictions.ts";
import type { ApertureLimit } from "../../src/record/product.ts";

const passing = (apertureUm: number, min?: number, max?: number): ApertureLimit => ({
  apertureUm,
  passingPct: { ...(min === undefined ? {} : { min }), ...(max === undefined ? {} : { max }) },
});
const told = (...envelope: ApertureLimit[]) => contradictions({ envelope });

describe("an envelope", () => {
  test("that rises has nothing to tell", () => {
    expect(told(passing(1000, 75, 95), passing(500, 3, 20), passing(355, undefined, 5))).toEqual([]);
    expect(told(passing(1000, 20, 50), passing(500, 20, 50))).toEqual([]);
    expect(told()).toEqual([]);
  });

  test("that asks for more passing a finer sieve than a coarser may pass is impossible", () =>
    expect(told(passing(710, undefined, 70), passing(500, 80))).toEqual([
      {
        apertureUm: 710,
        text: "at most 70 % passing 710 um, but at least 80 % passing the finer 500 um: no curve does both",
        impossible: true,
      },
    ]));

  test("whose lower side falls has a limit that decides nothing", () =>
    expect(told(passing(1400, 75), passing(1000, 80))).toEqual([
      {
        apertureUm: 1400,
        text: "at least 75 % passing 1.40 mm is below the 80 % at the finer 1.00 mm: it decides nothing",
        impossible: false,
      },
    ]));

  test("whose upper side falls has one too, at the finer sieve", () =>
    expect(told(passing(710, undefined, 15), passing(500, undefined, 20))).toMatchObject([
      { text: "at most 20 % passing 500 um is above the 15 % at the coarser 710 um: it decides nothing" },
    ]));

  test("may say it by what is coarser; what single sieves retain is not looked at", () => {
    expect(told({ apertureUm: 710, coarserPct: { min: 30 } }, passing(500, 80))).toMatchObject([{ impossible: true }]);
    expect(told({ apertureUm: 710, retainedPct: { min: 90 } }, passing(500, 80))).toEqual([]);
  });

  test("that some curve meets is never called impossible", () =>
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 100 }), fc.nat(20), fc.nat(20)), { minLength: 1, maxLength: 8 }),
        (rows) => {
          const rising = rows.map(([pct]) => pct).sort((a, b) => a - b);
          const envelope = rows.map(([, below, above], i) => {
            const at = rising[i] ?? 0;
            return passing(100 * (i + 1), Math.max(0, at - below), Math.min(100, at + above));
          });
          expect(told(...envelope).filter((one) => one.impossible)).toEqual([]);
        },
      ),
    ));
});
