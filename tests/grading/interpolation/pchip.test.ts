import { describe, expect, test } from "vitest";
import { pchipSlopes } from "../../../src/grading/interpolation/pchip.ts";
import { passingAt } from "../../../src/grading/passingAt.ts";
import { percentileUm } from "../../../src/grading/percentile.ts";
import reference from "../../published/reference/fixtures/pchip.json" with { type: "json" };
import { expectNear } from "../near.ts";
import { numberOf, passing } from "../stack.ts";

describe.each(reference.cases)("as scipy's PchipInterpolator: $name", (curve) => {
  const coarsestFirst = curve.apertureUm.map((um, i) => `${um}:${curve.passingPct[i]}`).toReversed();
  const grading = passing(coarsestFirst.join(" "));

  test("slopes", () => {
    const slopes = pchipSlopes(curve.apertureUm.map(Math.log), curve.passingPct);
    curve.slopes.forEach((slope, i) => {
      expectNear(slopes[i] ?? Number.NaN, slope, 1e-11, 1e-12);
    });
  });

  test("passing % between the sieves", () => {
    curve.atUm.forEach((um, i) => {
      expectNear(numberOf(passingAt(grading, um, "monotone")), curve.passingAtPct[i] ?? Number.NaN, 1e-9, 1e-9);
    });
  });

  test("percentiles, by inverting the same curve", () => {
    curve.percentilePct.forEach((pct, i) => {
      expectNear(numberOf(percentileUm(grading, pct, "monotone")), curve.percentileUm[i] ?? Number.NaN, 1e-8);
    });
  });
});

test("one point has no slope, two have that of their line", () => {
  expect([pchipSlopes([3], [7]), pchipSlopes([1, 3], [10, 30])]).toEqual([[0], [10, 10]]);
});

test("a turn and a plateau are flat at their points", () => {
  expect(pchipSlopes([0, 1, 2, 3, 4], [0, 2, 1, 1, 3]).slice(1, 4)).toEqual([0, 0, 0]);
});

test("an end slope that would overshoot a turn is held at three times the first rise", () => {
  expect(pchipSlopes([0, 1, 1.5], [0, 1, -3])[0]).toBe(3);
  expect(pchipSlopes([0, 0.5, 1.5], [-3, 1, 0])[2]).toBe(-3);
});
