import fc from "fast-check";
import { expect, test } from "vitest";
import { classSizeUm } from "../../src/grading/classSize.ts";
import { expectNear } from "./near.ts";

test.each([
  ["arithmetic", 2500],
  ["geometric", 2000],
  ["logarithmic", 3000 / Math.log(4)],
] as const)("%s middle of 1 to 4 mm", (mean, middleUm) => {
  expectNear(classSizeUm(1000, 4000, mean), middleUm, 1e-15);
});

test("the geometric lies below the logarithmic, that below the arithmetic, all inside the class", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.1, max: 1e5, noNaN: true }),
      fc.double({ min: 1.001, max: 1e6, noNaN: true }),
      (a, r) => {
        const sizes = [
          a,
          ...(["geometric", "logarithmic", "arithmetic"] as const).map((m) => classSizeUm(a, a * r, m)),
          a * r,
        ];
        expect(sizes).toEqual(sizes.toSorted((x, y) => x - y));
      },
    ),
  );
});

test("a class of no width has that size, by every mean", () => {
  for (const mean of ["arithmetic", "geometric", "logarithmic"] as const)
    expectNear(classSizeUm(63, 63, mean), 63, 1e-15);
  expectNear(classSizeUm(1000, 1000 * (1 + 1e-12), "logarithmic"), 1000, 1e-11);
});

test("the logarithmic mean is the exact surface mean of mass spread evenly over the class", () => {
  const slices = Array.from({ length: 10_000 }, (_, i) => 1000 + (3000 * (i + 0.5)) / 10_000);
  const surfaceMean = slices.length / slices.reduce((sum, x) => sum + 1 / x, 0);
  expectNear(classSizeUm(1000, 4000, "logarithmic"), surfaceMean, 1e-8);
});
