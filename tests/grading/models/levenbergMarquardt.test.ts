import fc from "fast-check";
import { expect, test } from "vitest";
import { levenbergMarquardt } from "../../../src/grading/models/levenbergMarquardt.ts";
import { normalEquations } from "../../../src/grading/models/normalEquations.ts";
import { sievePoints } from "../../../src/grading/models/points.ts";
import { straightLine } from "../../../src/grading/models/straightLine.ts";
import { MODELS } from "../../../src/grading/models/table.ts";
import { expectNear } from "../near.ts";
import { curveAt, gradingOf, TWELVE_SIEVES } from "./gradings.ts";

const noisy = sievePoints(
  gradingOf([2000, 1400, 1000, 710, 500, 355, 250, 180], [93, 71, 66, 41, 38.5, 15, 12.5, 6.5]),
);

test("finds the same end from starts far and near", () =>
  fc.assert(
    fc.property(
      fc.double({ min: Math.log(300), max: Math.log(2500), noNaN: true }),
      fc.double({ min: 0.5, max: 4, noNaN: true }),
      (lnSizeUm, slope) => {
        const near = levenbergMarquardt(noisy, MODELS.rosinRammler, { lnSizeUm: Math.log(1000), slope: 1.4 })!;
        const far = levenbergMarquardt(noisy, MODELS.rosinRammler, { lnSizeUm, slope })!;
        expectNear(far.lnSizeUm, near.lnSizeUm, 0, 1e-8);
        expectNear(far.slope, near.slope, 1e-8);
      },
    ),
  ));

test("ends where no small move to any side lessens the sum of squares", () => {
  for (const model of [MODELS.rosinRammler, MODELS.logNormal]) {
    const end = levenbergMarquardt(noisy, model, { lnSizeUm: Math.log(700), slope: 1 })!;
    const sumAt = (dSize: number, dSlope: number) =>
      normalEquations(noisy, model, { lnSizeUm: end.lnSizeUm + dSize, slope: end.slope * Math.exp(dSlope) }).sum;
    const least = sumAt(0, 0);
    for (const [dSize, dSlope] of [
      [1e-4, 0],
      [-1e-4, 0],
      [0, 1e-4],
      [0, -1e-4],
      [1e-4, 1e-4],
      [-1e-4, 1e-4],
    ]) {
      expect(sumAt(dSize!, dSlope!)).toBeGreaterThan(least);
    }
  }
});

test("stays at an exact curve", () => {
  const exact = sievePoints(gradingOf(TWELVE_SIEVES, curveAt("logNormal", 700, 1.8, TWELVE_SIEVES)));
  const end = levenbergMarquardt(exact, MODELS.logNormal, { lnSizeUm: Math.log(700), slope: 1.8 })!;
  expectNear(end.lnSizeUm, Math.log(700), 1e-12);
  expectNear(end.slope, 1.8, 1e-11);
});

test("says so when the points do not hold both parameters: half passes each sieve but for a hundred-thousandth", () => {
  const flat = sievePoints(gradingOf([1000, 500, 250], [50.00001, 50, 50]));
  for (const model of [MODELS.rosinRammler, MODELS.gatesGaudinSchuhmann]) {
    expect(levenbergMarquardt(flat, model, straightLine(model, flat)!)).toBeNull();
  }
});

test("gives up on a start from which nothing can be seen", () => {
  expect(levenbergMarquardt(noisy, MODELS.rosinRammler, { lnSizeUm: 0, slope: 1e6 })).toBeNull();
  expect(levenbergMarquardt(noisy, MODELS.rosinRammler, { lnSizeUm: Number.NaN, slope: 1 })).toBeNull();
  expect(levenbergMarquardt([], MODELS.rosinRammler, { lnSizeUm: 6, slope: 1 })).toBeNull();
});
