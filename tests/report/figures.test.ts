import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { determined, undetermined } from "../../src/record/determination.ts";
import { apertureText, decimalsOf, massText, pctText, sizeText, valueText } from "../../src/report/figures.ts";

describe("a size read from the curve", () => {
  test.each([
    [742.4, "742 um"],
    [63, "63.0 um"],
    [0.5, "0.500 um"],
    [999.4, "999 um"],
    [999.5, "1.00 mm"],
    [1000, "1.00 mm"],
    [1190, "1.19 mm"],
    [1185, "1.19 mm"],
    [11_240, "11.2 mm"],
    [125_000, "125 mm"],
  ])("%d um reads %s", (um, text) => expect(sizeText(um)).toBe(text));

  test("changes to mm exactly where three digits would say 1000 um", () =>
    fc.assert(
      fc.property(fc.double({ min: 1, max: 1e6, noNaN: true }), (um) => {
        const [digits, unit] = sizeText(um).split(" ");
        expect(unit).toBe(um < 999.5 ? "um" : "mm");
        const shownUm = Number(digits) * (unit === "mm" ? 1000 : 1);
        expect(Math.abs(shownUm - um)).toBeLessThanOrEqual(um * 0.005 + 1e-9);
      }),
    ));
});

describe("a nominal aperture", () => {
  test.each([
    [0, "pan"],
    [63, "63 um"],
    [38.5, "38.5 um"],
    [710, "710 um"],
    [1000, "1.00 mm"],
    [1100, "1.10 mm"],
    [1400, "1.40 mm"],
    [1150, "1.15 mm"],
    [1234, "1.234 mm"],
    [37_500, "37.5 mm"],
    [125_000, "125 mm"],
  ])("%d um reads %s", (um, text) => expect(apertureText(um)).toBe(text));

  test("never reads like another aperture", () =>
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9_999_999 }), fc.integer({ min: 1, max: 9_999_999 }), (a, b) => {
        fc.pre(a !== b);
        expect(apertureText(a / 10)).not.toBe(apertureText(b / 10));
      }),
    ));
});

test("the balance's readability decides the decimals of a mass", () => {
  expect([10, 1, 0.5, 0.1, 0.05, 0.02, 0.01, 0.001, 1e-9].map(decimalsOf)).toEqual([0, 0, 1, 1, 2, 2, 2, 3, 6]);
  expect(massText(521.405, decimalsOf(0.01))).toBe("521.41");
  expect(massText(521.4)).toBe("521.40");
});

test("what is missing reads as a dash, never as zero", () => {
  expect(massText(null)).toBe("–");
  expect(pctText(null)).toBe("–");
  expect(valueText(undefined)).toBe("–");
  expect(valueText(undetermined("the pan holds 14 %"))).toBe("–");
});

test("percentages are rounded half away from zero on their decimal text", () => {
  expect(pctText(98.05)).toBe("98.1");
  expect(pctText(2.675, 2)).toBe("2.68");
  expect(pctText(-0.25)).toBe("-0.3");
  expect(pctText(0)).toBe("0.0");
});

test.each([
  [742.4, "um", "742 um"],
  [1190, "um", "1.19 mm"],
  [2.8149, "1", "2.81"],
  [54.31, "1", "54.3"],
  [-1.2345, "phi", "-1.23 phi"],
  [49.25, "%", "49.3 %"],
  [123.4, "cm2/g", "123 cm2/g"],
])("a value of %d in %s reads %s", (value, unit, text) => expect(valueText(determined(value, unit))).toBe(text));
