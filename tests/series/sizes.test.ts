import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { apertureText, nominalText } from "../../src/series/apertureText.ts";
import { nextCoarserPrincipalUm } from "../../src/series/principal.ts";
import { STANDARD_APERTURES } from "../../src/series/table.ts";
import { toleranceByFormula } from "../../src/series/tolerance.ts";

describe("aperture as text", () => {
  test.each([
    [0, "pan"],
    [20, "20 um"],
    [62.5, "62.5 um"],
    [710, "710 um"],
    [999, "999 um"],
    [1000, "1.00 mm"],
    [1400, "1.40 mm"],
    [1180, "1.18 mm"],
    [11_200, "11.2 mm"],
    [37_500, "37.5 mm"],
    [63_000, "63.0 mm"],
    [125_000, "125 mm"],
    [1_000_000, "1000 mm"],
    [8467, "8.467 mm"],
  ])("%d um is %s", (apertureUm, text) => expect(apertureText(apertureUm)).toBe(text));

  test.each([
    [710, "710 um"],
    [1000, "1 mm"],
    [1400, "1.4 mm"],
    [63_000, "63 mm"],
  ])("%d um is nominally %s", (apertureUm, text) => expect(nominalText(apertureUm)).toBe(text));

  test("differs for any two apertures", () =>
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), fc.integer({ min: 1, max: 1e6 }), (a, b) => {
        expect(apertureText(a) === apertureText(b)).toBe(a === b);
      }),
    ));
});

describe("the next coarser principal size", () => {
  const principal = STANDARD_APERTURES.filter((row) => row.series.includes("ISO 565 R20/3")).map((r) => r.apertureUm);

  test("is the next one up in the table, from each of its sizes", () => {
    principal.slice(1).forEach((size, i) => {
      expect(nextCoarserPrincipalUm(size)).toBe(principal[i]);
    });
  });

  test.each([
    [45, 63],
    [600, 710],
    [709.9, 710],
    [710, 1000],
    [999, 1000],
    [1000, 1400],
    [4750, 5600],
    [100_000, 125_000],
    [125_000, 180_000],
    [710_000, 1_000_000],
    [32, 45],
    [31.5, 45],
    [20, 22.4],
    [1, 1.4],
    [0.9, 1],
    [0.045, 0.063],
  ])("above %d um is %d um", (apertureUm, next) => expect(nextCoarserPrincipalUm(apertureUm)).toBe(next));

  test("is coarser, by one step at most", () =>
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1e6, noNaN: true }), (apertureUm) => {
        const next = nextCoarserPrincipalUm(apertureUm);
        expect(next).toBeGreaterThan(apertureUm);
        expect(next / apertureUm).toBeLessThan(1.44);
      }),
    ));

  test.each([0, -5, Number.NaN, Number.POSITIVE_INFINITY])("of %d is a fault of the caller", (apertureUm) =>
    expect(() => nextCoarserPrincipalUm(apertureUm)).toThrow(RangeError),
  );
});

describe("limits by formula", () => {
  test.each([20, 125_000])("hold at %d um, an end of the standard", (apertureUm) =>
    expect(toleranceByFormula(apertureUm)).toBeDefined(),
  );

  test.each([19.99, 125_001, 0, -1, Number.NaN])("are not given for %d um", (apertureUm) =>
    expect(toleranceByFormula(apertureUm)).toBeUndefined(),
  );

  test("widen with the aperture but shrink as a share of it", () =>
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 124_000 }), fc.integer({ min: 1, max: 1000 }), (apertureUm, more) => {
        const [fine, coarse] = [toleranceByFormula(apertureUm)!, toleranceByFormula(apertureUm + more)!];
        expect(coarse.meanUm).toBeGreaterThan(fine.meanUm);
        expect(coarse.maxUm).toBeGreaterThan(fine.maxUm);
        expect(coarse.maxUm / (apertureUm + more)).toBeLessThan(fine.maxUm / apertureUm);
      }),
    ));

  test("lie in the order Y below Z below X, Z in the middle", () => {
    for (const { apertureUm } of STANDARD_APERTURES) {
      const { meanUm, maxUm, intermediateUm } = toleranceByFormula(apertureUm)!;
      expect(meanUm).toBeLessThan(intermediateUm);
      expect(intermediateUm).toBeLessThan(maxUm);
      expect(intermediateUm - meanUm).toBeCloseTo(maxUm - intermediateUm, 9);
    }
  });
});
