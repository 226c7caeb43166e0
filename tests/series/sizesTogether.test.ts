import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sizesText } from "../../src/report/figures.ts";
import { boundsBeside, inUnit, unitBeside } from "../../src/series/sizesTogether.ts";

describe("sizes that stand together", () => {
  test("have the unit of the figure, whatever their own would be", () => {
    expect(boundsBeside({ min: 2900, max: 3150 }, "um", 2759)).toEqual({ min: 2.9, max: 3.15, word: "mm" });
    expect(boundsBeside({ min: 900, max: 1234.5 }, "um", 999.4)).toEqual({ min: 900, max: 1234.5, word: "um" });
    expect(boundsBeside({ min: null, max: 1100 }, "um", null)).toEqual({ min: null, max: 1.1, word: "mm" });
    expect(boundsBeside({ min: 5, max: null }, "%", 2000)).toEqual({ min: 5, max: null, word: "%" });
    expect(boundsBeside({ min: 1, max: 2 }, "1", 1.5).word).toBe("");
  });

  test("are the same sizes in either unit", () =>
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1_250_000 }), fc.integer({ min: 1, max: 1_250_000 }), (tenths, beside) => {
        const unit = unitBeside(beside / 10);
        expect(inUnit(tenths / 10, unit) * unit.um).toBeCloseTo(tenths / 10, 6);
      }),
    ));

  test("have as many decimals as the first of them, and a dash for what is not known", () => {
    expect(sizesText([1019, 987, 1198], 1)).toEqual(["1.019 mm", "0.987 mm", "1.198 mm"]);
    expect(sizesText([745.5, null, 1003.2], 1)).toEqual(["745.5 um", "–", "1003.2 um"]);
    expect(sizesText([null, null])).toEqual(["–", "–"]);
  });
});
