import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { ValueId } from "../../../src/record/valueIds.ts";
import { expectNear } from "../near.ts";
import { assumptionsOf, graded, gradedOf, passing, risingFractions } from "../stack.ts";
import { number, reason, resultOf } from "./valuesOf.ts";

/** d5 = 100, d10 = 125, d30 = 200, d50 = 250, d60 = 320, d90 = 500, all on sieves. */
const known = passing("1000:100 500:90 320:60 250:50 200:30 125:10 100:5");

describe("worked by hand from percentiles that lie on sieves", () => {
  test.each([
    ["effectiveSizeUm", 125],
    ["uniformityCoefficient", 2.56],
    ["curvatureCoefficient", 1],
    ["relativeSpan", 1.5],
    ["sizeGuideNumber", 25],
    ["uniformityIndex", 20],
  ] satisfies [ValueId, number][])("%s is %d", (id, expected) => expectNear(number(id, known), expected, 1e-15));
});

describe("phi statistics of a grading that is normal in phi, with percentiles on sieves", () => {
  const um = (phi: number) => 1000 * 2 ** -phi;
  const at = (coarserPct: number, phi: number) => `${um(phi)}:${100 - coarserPct}`;
  const normal = passing(
    ["2000:100", at(5, 1.355), at(16, 1.6), at(25, 1.732), at(50, 2), at(75, 2.268), at(84, 2.4), at(95, 2.645)].join(
      " ",
    ),
  );

  test.each([
    ["phiGraphicMean", 2],
    ["phiGraphicSorting", 0.8 / 4 + 1.29 / 6.6],
    ["phiGraphicSkewness", 0],
    ["phiGraphicKurtosis", 1.29 / (2.44 * 0.536)],
  ] satisfies [ValueId, number][])("%s is %d", (id, expected) =>
    expectNear(number(id, normal), expected, 1e-12, 1e-12),
  );

  test("a tail of fines makes the skewness positive", () => {
    expect(number("phiGraphicSkewness", passing("1000:100 500:80 250:20 125:10 63:4 32:0"))).toBeGreaterThan(0);
  });
});

describe("what would be needed", () => {
  const coarse = graded("1400:12 710:60 63:14 pan:14");

  test("the percentile, the bound and the mass beyond it", () => {
    expect(reason("effectiveSizeUm", coarse)).toBe("d10 is below 63 um (pan holds 14 %)");
  });

  test("every percentile that is missing, both ends", () => {
    expect(reason("relativeSpan", coarse)).toBe(
      "d10 is below 63 um (pan holds 14 %); d90 is above 1.40 mm (that sieve holds 12 %)",
    );
  });

  test("phi percentiles are named with their d", () => {
    expect(reason("phiGraphicSorting", coarse)).toBe(
      "phi5 (d95) is above 1.40 mm (that sieve holds 12 %); phi95 (d5) is below 63 um (pan holds 14 %)",
    );
  });

  test("95 % retained in the pan leaves no uniformity index", () => {
    expect(reason("uniformityIndex", graded("2000:30 1000:60 pan:10"))).toMatch(/^d5 is below 1.00 mm/);
  });
});

test("notes of a percentile are told with its name", () => {
  const flat = passing("2000:100 1000:60 500:60 355:60 250:5");
  expect(assumptionsOf(resultOf("uniformityCoefficient", flat))).toEqual([
    "d60: passing stays at 60 % from 355 um to 1.00 mm: the smallest size is given",
  ]);
});

test("ratios do not depend on the unit of size, sizes follow it", () => {
  fc.assert(
    fc.property(risingFractions, (fractions) => {
      const one = gradedOf([{ apertureUm: 1e7, emptyG: null, fullG: null, netG: 0 }, ...fractions]);
      const two = gradedOf(one.rows.map((row) => ({ ...row, apertureUm: 2 * row.apertureUm })));
      for (const id of ["uniformityCoefficient", "curvatureCoefficient", "relativeSpan", "uniformityIndex"] as const) {
        const [a, b] = [resultOf(id, one), resultOf(id, two)];
        expect(b.determinable).toBe(a.determinable);
        if (a.determinable && b.determinable) expectNear(b.value, a.value, 1e-9);
      }
      const [a, b] = [resultOf("phiGraphicMean", one), resultOf("phiGraphicMean", two)];
      if (a.determinable && b.determinable) expectNear(b.value, a.value - 1, 1e-9, 1e-9);
    }),
  );
});
