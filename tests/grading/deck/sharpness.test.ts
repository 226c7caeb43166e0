import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sharpnessOf } from "../../../src/grading/deck/sharpness.ts";
import { determined, undetermined } from "../../../src/record/determination.ts";
import { expectNear } from "../near.ts";
import { assumptionsOf, numberOf, reasonOf } from "../stack.ts";

const um = (size: number, assumptions: string[] = []) => determined(size, "um", assumptions);
const sizes = { d25: um(1600), d50: um(2000), d75: um(2400) };

test("worked by hand: d25 1.6, d50 2.0, d75 2.4 mm", () => {
  const found = sharpnessOf(sizes, [2000]);
  expect(found.probableErrorUm).toEqual({ determinable: true, value: 400, unit: "um" });
  expect(found.imperfection).toEqual({ determinable: true, value: 0.2, unit: "1" });
  expectNear(numberOf(found.sharpness), 2 / 3, 1e-15);
});

test("imperfection and sharpness do not change with the unit of size, the probable error does", () =>
  fc.assert(
    fc.property(fc.double({ min: 0.01, max: 100, noNaN: true }), (c) => {
      const scaled = sharpnessOf({ d25: um(1600 * c), d50: um(2000 * c), d75: um(2400 * c) }, [2000 * c]);
      expectNear(numberOf(scaled.imperfection), 0.2, 1e-12);
      expectNear(numberOf(scaled.sharpness), 2 / 3, 1e-12);
      expectNear(numberOf(scaled.probableErrorUm), 400 * c, 1e-12);
    }),
  ));

test("a perfect cut has imperfection 0 and sharpness 1", () => {
  const perfect = sharpnessOf({ d25: um(2000), d50: um(2000), d75: um(2000) }, []);
  expect([numberOf(perfect.imperfection), numberOf(perfect.sharpness)]).toEqual([0, 1]);
});

describe("tells", () => {
  test("every assumption of its sizes once", () => {
    const found = sharpnessOf({ d25: um(1600, ["pan"]), d50: um(2000, ["pan"]), d75: um(2400, ["top"]) }, [2000]);
    expect(assumptionsOf(found.imperfection)).toEqual(["pan", "top"]);
  });

  test("when no class lies between d25 and d75", () => {
    const note = "no class lies between d25 and d75: the cut may be sharper than these sieves can show";
    expect(assumptionsOf(sharpnessOf(sizes, [1600, 2400]).sharpness)).toEqual([note]);
    expect(assumptionsOf(sharpnessOf(sizes, [1000, 1700, 3000]).sharpness)).toEqual([]);
  });
});

describe("says which size is missing", () => {
  const missing = undetermined("below 707 um");

  test("the cut size, which only the imperfection needs", () => {
    const found = sharpnessOf({ ...sizes, d50: missing }, [2000]);
    expect(reasonOf(found.imperfection)).toBe("the cut size: below 707 um");
    expect(numberOf(found.probableErrorUm)).toBe(400);
  });

  test("d25 or d75, which all need", () => {
    for (const name of ["d25", "d75"] as const) {
      const found = sharpnessOf({ ...sizes, [name]: missing }, [2000]);
      for (const each of Object.values(found)) expect(reasonOf(each)).toBe(`${name}: below 707 um`);
    }
  });
});
