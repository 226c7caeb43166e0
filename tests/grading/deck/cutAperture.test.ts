import { describe, expect, test } from "vitest";
import { coarserThan, cutAperture } from "../../../src/grading/deck/cutAperture.ts";
import { determined, undetermined } from "../../../src/record/determination.ts";
import { expectNear } from "../near.ts";
import { classesOf, deckB, FEED_G } from "./streams.ts";

const classes = classesOf(deckB);
const cutSize = (um: number) => determined(um, "um");

describe("the aperture", () => {
  test("that was asked for is taken without a word", () =>
    expect(cutAperture(classes, 4000, cutSize(2000))).toEqual({
      ok: true,
      value: { apertureUm: 4000, assumption: null },
    }));

  test("is else the one nearest the cut size, and that is said", () =>
    expect(cutAperture(classes, undefined, cutSize(2900))).toEqual({
      ok: true,
      value: { apertureUm: 2800, assumption: "2.80 mm, the sieve nearest the cut size" },
    }));

  test("is nearest by ratio: 1.45 mm is nearer 2 mm than 1 mm, though 450 um from one and 550 from the other is closer", () => {
    const found = (um: number) => {
      const cut = cutAperture(classes, undefined, cutSize(um));
      return cut.ok && cut.value.apertureUm;
    };
    expect([found(1410), found(1420), found(1450)]).toEqual([1000, 2000, 2000]);
    expect([found(1), found(1e9)]).toEqual([1000, 8000]);
  });

  test("must be a sieve of the stack", () => {
    const cut = cutAperture(classes, 3000, cutSize(2900));
    expect(cut).toEqual({
      ok: false,
      reason:
        "recoveries are taken at a sieve of the stack, and 3.00 mm is none: it has 8.00 mm, 5.60 mm, 4.00 mm, 2.80 mm, 2.00 mm and 1.00 mm",
    });
    expect(cutAperture(classes, 0, cutSize(2900)).ok).toBe(false);
  });

  test("is not known without a wish and without a cut size", () =>
    expect(cutAperture(classes, undefined, undetermined("below 707 um"))).toEqual({
      ok: false,
      reason: "no aperture was given and the cut size is below 707 um",
    }));
});

test("coarser than an aperture is what its sieve and all above hold", () => {
  const whole = FEED_G.reduce((sum, g) => sum + g, 0);
  expectNear(coarserThan(classes, 2800).feed, (100 * (20 + 80 + 150 + 200)) / whole, 1e-13);
  expectNear(coarserThan(classes, 8000).feed, (100 * 20) / whole, 1e-13);
  expectNear(coarserThan(classes, 1000).feed, (100 * (whole - 100)) / whole, 1e-13);
});

test("each product has its own coarser part", () => {
  const { oversize, undersize } = coarserThan(classes, 4000);
  const [over, through] = [20 + 78.4 + 135 + 120 + 44 + 9.2 + 1, 1.6 + 15 + 80 + 176 + 220.8 + 99];
  expectNear(oversize, (100 * (20 + 78.4 + 135)) / over, 1e-12);
  expectNear(undersize, (100 * (1.6 + 15)) / through, 1e-12);
});
