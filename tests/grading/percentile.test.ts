import { describe, expect, test } from "vitest";
import { PERCENTILES, percentiles, percentileUm } from "../../src/grading/percentile.ts";
import { expectNear } from "./near.ts";
import { assumptionsOf, graded, numberOf, passing, reasonOf } from "./stack.ts";

const sand = passing("4000:100 2000:83 1000:40 250:14");

describe("worked by hand between 1 mm (40 %) and 2 mm (83 %)", () => {
  test("log-linear", () => {
    expectNear(numberOf(percentileUm(sand, 50, "log-linear")), 1000 * 2 ** (10 / 43), 1e-14);
  });

  test("linear", () => expectNear(numberOf(percentileUm(sand, 50, "linear")), 1000 + (1000 * 10) / 43, 1e-14));

  test("a percentile on a sieve is that sieve's aperture exactly, by every interpolation", () => {
    for (const interpolation of ["log-linear", "linear", "log-probability", "monotone"] as const) {
      expect(percentileUm(sand, 40, interpolation)).toEqual({ determinable: true, value: 1000, unit: "um" });
    }
  });
});

describe("beyond the sieves (CP-5)", () => {
  test("below the finest: the bound and what the pan holds", () => {
    expect(reasonOf(percentileUm(sand, 10, "log-linear"))).toBe("below 250 um (pan holds 14 %)");
  });

  test("above the coarsest: the bound and what it holds", () => {
    expect(reasonOf(percentileUm(graded("1400:12 710:80 pan:8"), 90, "monotone"))).toBe(
      "above 1.40 mm (that sieve holds 12 %)",
    );
  });

  test("the finest sieve's own % is still in range", () => {
    expect(numberOf(percentileUm(sand, 14, "log-linear"))).toBe(250);
  });

  test("all in the pan, all on the top sieve", () => {
    expect(reasonOf(percentileUm(graded("500:0 250:0 pan:80"), 50, "linear"))).toBe("below 250 um (pan holds 100 %)");
    expect(reasonOf(percentileUm(graded("500:80 250:0 pan:0"), 50, "linear"))).toBe(
      "above 500 um (that sieve holds 100 %)",
    );
  });

  test.each([0, -3, 100.1, Number.NaN])("d%d does not exist", (pct) => {
    expect(reasonOf(percentileUm(sand, pct, "linear"))).toBe("a percentile lies above 0 and up to 100 % passing");
  });
});

describe("on a plateau the smallest size that reaches the % counts (CP-6)", () => {
  test("one step wide: without a note", () => {
    const found = percentileUm(passing("2000:90 1000:50 500:50 250:20"), 50, "log-linear");
    expect(found).toEqual({ determinable: true, value: 500, unit: "um" });
  });

  test("wider than one step: with a note", () => {
    const found = percentileUm(passing("2000:90 1000:50 500:50 355:50 250:20"), 50, "monotone");
    expect(numberOf(found)).toBe(355);
    expect(assumptionsOf(found)).toEqual(["passing stays at 50 % from 355 um to 1.00 mm: the smallest size is given"]);
  });

  test("d100 is the finest sieve that passes everything", () => {
    expect(numberOf(percentileUm(passing("4000:100 2000:100 1000:40 250:0"), 100, "linear"))).toBe(2000);
  });
});

test("log-probability tells where it had to read log-linearly", () => {
  expect(assumptionsOf(percentileUm(sand, 90, "log-probability"))).toHaveLength(1);
  expect(assumptionsOf(percentileUm(sand, 50, "log-probability"))).toHaveLength(0);
});

test("the usual percentiles are each what percentileUm gives", () => {
  const all = percentiles(sand, "monotone");
  expect(Object.keys(all)).toEqual(["5", "10", "16", "25", "30", "50", "60", "75", "80", "84", "90", "95"]);
  for (const pct of PERCENTILES) expect(all[pct]).toEqual(percentileUm(sand, Number(pct), "monotone"));
});

test("percentiles rise with their %", () => {
  const sizes = [15, 20, 30, 50, 70, 83, 90, 99].map((pct) => numberOf(percentileUm(sand, pct, "monotone")));
  expect(sizes).toEqual(sizes.toSorted((a, b) => a - b));
});
