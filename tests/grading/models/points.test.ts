import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { pointsFor, sievePoints } from "../../../src/grading/models/points.ts";
import { anyPassing, gradingOf, TWELVE_SIEVES } from "./gradings.ts";

const points = (...passingPct: number[]) =>
  sievePoints(gradingOf(TWELVE_SIEVES.slice(0, passingPct.length), passingPct));
const taken = (rule: "least-squares" | "line", ...passingPct: number[]) => {
  const outcome = pointsFor(rule, points(...passingPct));
  return outcome.ok ? outcome.value.map((point) => point.passingPct) : outcome.reason;
};

test("sieves are points finest first, by the logarithm of their aperture; the pan is none", () => {
  expect(sievePoints(gradingOf([2000, 1000, 500], [90, 60, 10]))).toEqual([
    { apertureUm: 500, lnSizeUm: Math.log(500), passingPct: 10 },
    { apertureUm: 1000, lnSizeUm: Math.log(1000), passingPct: 60 },
    { apertureUm: 2000, lnSizeUm: Math.log(2000), passingPct: 90 },
  ]);
});

describe("least squares", () => {
  test("takes what lies strictly between 0 and 100 %", () =>
    expect(taken("least-squares", 100, 99.99, 60, 0.01, 0)).toEqual([0.01, 60, 99.99]));

  test("takes a rounding residue of 0 or 100 for what it is", () =>
    expect(taken("least-squares", 100 - 1.4e-14, 90, 60, 20, 1.4e-14)).toEqual([20, 60, 90]));
});

describe("line", () => {
  test("takes 5 to 95 %, both included", () => expect(taken("line", 95.1, 95, 60, 5, 4.9)).toEqual([5, 60, 95]));

  test("does not lose a 95 or a 5 to rounding", () =>
    expect(taken("line", 95.00000000000001, 60, 4.999999999999999)).toHaveLength(3));
});

describe("refuses, in words,", () => {
  test("fewer than three sieves", () => {
    expect(taken("least-squares", 100, 80, 20, 0)).toBe(
      "only 2 sieves have more than 0 and less than 100 % passing; a fit needs 3",
    );
    expect(taken("line", 99, 80, 2)).toBe("only 1 sieve has 5 to 95 % passing; a fit needs 3");
    expect(taken("line", 99, 97, 2)).toBe("no sieve has 5 to 95 % passing; a fit needs 3");
  });

  test("a flat curve, also one that only rounding lifts", () => {
    const flat = "the same share passes all 3 sieves; a flat curve has no spread";
    expect(taken("least-squares", 40, 40, 40)).toBe(flat);
    expect(taken("line", 40 + 1e-13, 40, 40)).toBe(flat);
  });
});

test("whatever it takes is a part of the sieves, in order, and the line never takes more than least squares", () =>
  fc.assert(
    fc.property(anyPassing, (passingPct) => {
      const all = sievePoints(gradingOf(TWELVE_SIEVES, passingPct));
      const [wide, narrow] = [pointsFor("least-squares", all), pointsFor("line", all)];
      fc.pre(wide.ok && narrow.ok);
      if (!wide.ok || !narrow.ok) return;
      expect(all.filter((point) => wide.value.includes(point))).toEqual(wide.value);
      expect(wide.value.filter((point) => narrow.value.includes(point))).toEqual(narrow.value);
    }),
  ));
