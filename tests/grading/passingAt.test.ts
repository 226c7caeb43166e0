import { describe, expect, test } from "vitest";
import { normalQuantile } from "../../src/grading/normal.ts";
import { passingAt } from "../../src/grading/passingAt.ts";
import { expectNear } from "./near.ts";
import { assumptionsOf, graded, numberOf, passing, reasonOf } from "./stack.ts";

const sand = passing("4000:100 2000:83 1000:40 250:14");

describe("worked by hand between 1 mm (40 %) and 2 mm (83 %)", () => {
  test("log-linear: the geometric middle passes the mean", () => {
    expectNear(numberOf(passingAt(sand, 1000 * Math.SQRT2, "log-linear")), 61.5, 1e-14);
  });

  test("linear: the arithmetic middle passes the mean", () => {
    expectNear(numberOf(passingAt(sand, 1500, "linear")), 61.5, 1e-14);
  });

  test("log-probability: the geometric middle passes the middle on the probability scale", () => {
    const found = numberOf(passingAt(sand, 1000 * Math.SQRT2, "log-probability"));
    expectNear(normalQuantile(found / 100), (normalQuantile(0.4) + normalQuantile(0.83)) / 2, 1e-13);
  });

  test("log-probability beside 100 % reads log-linearly and says so", () => {
    const found = passingAt(sand, 2000 * Math.SQRT2, "log-probability");
    expectNear(numberOf(found), 91.5, 1e-14);
    expect(assumptionsOf(found)).toEqual([
      "read log-linearly between 2.00 mm and 4.00 mm: 100 % has no place on a probability scale",
    ]);
  });

  test("log-probability beside 0 % does the same", () => {
    const found = passingAt(passing("1000:60 500:0"), 500 * Math.SQRT2, "log-probability");
    expectNear(numberOf(found), 30, 1e-14);
    expect(assumptionsOf(found)[0]).toMatch(/^read log-linearly between 500 um and 1.00 mm: 0 % has no place/);
  });

  test("a read figure carries its unit, and no assumption where none was made", () => {
    expect(passingAt(sand, 1500, "linear")).toMatchObject({ unit: "%" });
    expect(assumptionsOf(passingAt(sand, 1500, "log-probability"))).toEqual([]);
  });
});

describe("beyond the sieves", () => {
  test("names the bound and the mass beyond it", () => {
    expect(reasonOf(passingAt(sand, 249, "log-linear"))).toBe("below 250 um (pan holds 14 %)");
    expect(reasonOf(passingAt(graded("1400:12 710:80 pan:8"), 1401, "linear"))).toBe(
      "above 1.40 mm (that sieve holds 12 %)",
    );
  });

  test("what was lost is named beside the pan when the charge is the basis", () => {
    const lossy = graded("1000:50 500:30 pan:10", { basis: "charge", chargeG: 100 });
    expect(reasonOf(passingAt(lossy, 250, "log-linear"))).toBe("below 500 um (pan and loss hold 20 %)");
  });

  test.each([Number.NaN, 0, -1, Number.NEGATIVE_INFINITY])("%d um is no place on the curve", (um) => {
    expect(passingAt(sand, um, "linear").determinable).toBe(false);
  });

  test("a single sieve knows only itself", () => {
    const one = graded("500:70 pan:30");
    expect(numberOf(passingAt(one, 500, "monotone"))).toBe(30);
    expect(passingAt(one, 501, "monotone").determinable).toBe(false);
  });
});
