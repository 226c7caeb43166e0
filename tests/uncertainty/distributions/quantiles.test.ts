import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { normalQuantile } from "../../../src/grading/normal.ts";
import { incompleteBeta } from "../../../src/uncertainty/distributions/incompleteBeta.ts";
import { incompleteGamma } from "../../../src/uncertainty/distributions/incompleteGamma.ts";
import { invert } from "../../../src/uncertainty/distributions/invert.ts";
import { logGamma } from "../../../src/uncertainty/distributions/logGamma.ts";
import {
  chiSquareCdf,
  chiSquareQuantile,
  fisherCdf,
  fisherQuantile,
  studentTQuantile,
} from "../../../src/uncertainty/distributions/quantiles.ts";
import { expectNear } from "../../grading/near.ts";

/** Figures without another source were generated with scipy 1.17.1. */
describe("the special functions agree with scipy", () => {
  test.each([
    [0.1, 2.252712651734206],
    [0.5, 0.5723649429247001],
    [1, 0],
    [2.5, 0.2846828704729192],
    [10, 12.801827480081469],
    [171, 706.5730622457875],
    [10000, 82099.71749644238],
  ])("ln gamma(%s)", (x, expected) => expectNear(logGamma(x), expected, 1e-13, 1e-13));

  test.each([
    [0.5, 0.5, 0.3, 0.36901011956554536],
    [2, 5, 0.1, 0.11426500000000002],
    [30, 40, 0.45, 0.6447480085585666],
    [500, 3, 0.99, 0.1217181983607307],
    [0.2, 9, 0.001, 0.4201900012703413],
  ])("incomplete beta a = %s, b = %s, x = %s", (a, b, x, expected) =>
    expectNear(incompleteBeta(x, a, b), expected, 1e-11),
  );

  test.each([
    [0.5, 0.1, 0.34527915398142317],
    [1, 3, 0.950212931632136],
    [10, 8, 0.28337574127298903],
    [100, 120, 0.9721362601094793],
    [1000, 1000, 0.5042052441802155],
  ])("incomplete gamma a = %s, x = %s", (a, x, expected) => expectNear(incompleteGamma(a, x), expected, 1e-11));

  test.each([
    [0.95, 1, 1, 161.4476387975882],
    [0.975, 3, 7, 5.889819167203253],
    [0.99, 10, 20, 3.368186389188742],
    [0.05, 4, 9, 0.16670058936947543],
    [0.9999, 2, 30, 12.71774696133457],
  ])("F quantile at %s of %s and %s", (p, over, under, expected) =>
    expectNear(fisherQuantile(p, over, under), expected, 1e-9),
  );
});

describe("ends and faults", () => {
  test("below 0 and above 1 the shares are 0 and 1", () => {
    expect([incompleteBeta(-1, 2, 3), incompleteBeta(0, 2, 3), incompleteBeta(1, 2, 3)]).toEqual([0, 0, 1]);
    expect([incompleteGamma(2, -1), incompleteGamma(2, 0)]).toEqual([0, 0]);
  });

  test.each([0, 1, -0.1, Number.NaN])("no quantile at %s", (p) => {
    expect(() => chiSquareQuantile(p, 3)).toThrow(RangeError);
    expect(() => fisherQuantile(p, 3, 4)).toThrow(RangeError);
    expect(() => studentTQuantile(p, 3)).toThrow(RangeError);
  });

  test("the gamma function has no logarithm at 0 and below", () => {
    expect(() => logGamma(0)).toThrow(RangeError);
    expect(() => logGamma(-1.5)).toThrow(RangeError);
  });

  test("the middle of t is 0", () => expect(studentTQuantile(0.5, 7)).toBe(0));
});

const share = fc.double({ min: 0.001, max: 0.999, noNaN: true });
const degrees = fc.integer({ min: 1, max: 200 });

describe("laws", () => {
  test("a quantile undoes its distribution", () =>
    fc.assert(
      fc.property(share, degrees, degrees, (p, over, under) => {
        expectNear(fisherCdf(fisherQuantile(p, over, under), over, under), p, 1e-9);
        expectNear(chiSquareCdf(chiSquareQuantile(p, over), over), p, 1e-9);
      }),
    ));

  test("t squared is F with 1 degree over", () =>
    fc.assert(
      fc.property(fc.double({ min: 0.51, max: 0.999, noNaN: true }), degrees, (p, under) => {
        expectNear(studentTQuantile(p, under) ** 2, fisherQuantile(2 * p - 1, 1, under), 1e-8);
        expectNear(studentTQuantile(1 - p, under), -studentTQuantile(p, under), 1e-12);
      }),
    ));

  test("t becomes normal with many degrees of freedom", () =>
    expectNear(studentTQuantile(0.975, 1e6), normalQuantile(0.975), 1e-5));

  test("F upside down is F with its degrees exchanged", () =>
    fc.assert(
      fc.property(share, degrees, degrees, (p, over, under) => {
        expectNear(fisherQuantile(p, over, under) * fisherQuantile(1 - p, under, over), 1, 1e-8);
      }),
    ));

  test("inverting finds what was put in", () =>
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (x) =>
        expectNear(
          invert((y) => y ** 3, x ** 3),
          x,
          1e-12,
        ),
      ),
    ));
});
