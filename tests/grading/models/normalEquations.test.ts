import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { MODEL_IDS } from "../../../src/grading/models/model.ts";
import { inverse, normalEquations, step } from "../../../src/grading/models/normalEquations.ts";
import { sievePoints } from "../../../src/grading/models/points.ts";
import { MODELS } from "../../../src/grading/models/table.ts";
import { expectNear } from "../near.ts";
import { gradingOf } from "./gradings.ts";

const points = sievePoints(gradingOf([2000, 1000, 500, 250, 125], [93, 71, 40, 18, 6]));
const anyLine = fc.record({
  lnSizeUm: fc.double({ min: Math.log(200), max: Math.log(4000), noNaN: true }),
  slope: fc.double({ min: 0.4, max: 3, noNaN: true }),
});

test.each(MODEL_IDS)("%s: -2 Jtr is how the sum of squares changes with ln size and ln slope", (id) =>
  fc.assert(
    fc.property(anyLine, (line) => {
      const kinkNear = points.some((point) => Math.abs(point.lnSizeUm - line.lnSizeUm) < 1e-3);
      fc.pre(!kinkNear);
      const sumAt = (dSize: number, dSlope: number) =>
        normalEquations(points, MODELS[id], {
          lnSizeUm: line.lnSizeUm + dSize,
          slope: line.slope * Math.exp(dSlope),
        }).sum;
      const h = 1e-5;
      const found = normalEquations(points, MODELS[id], line);
      const scale = 1e-6 * (1 + found.sum);
      expectNear(-2 * found.ar, (sumAt(h, 0) - sumAt(-h, 0)) / (2 * h), 1e-6, scale);
      expectNear(-2 * found.br, (sumAt(0, h) - sumAt(0, -h)) / (2 * h), 1e-6, scale);
    }),
  ),
);

describe("the 2 by 2 system", () => {
  const system = { sum: 1, aa: 4, ab: 1, bb: 9, ar: 2, br: -3 };

  test("its inverse times itself is one, worked by hand: determinant 35", () => {
    expect(inverse(system, 0)).toEqual([9 / 35, -1 / 35, 4 / 35]);
  });

  test("the step solves it: [4 1; 1 9] [3/5, -2/5] = [2, -3]", () => {
    const found = step(system, 0)!;
    expectNear(found.lnSize, 0.6, 1e-15);
    expectNear(found.lnSlope, -0.4, 1e-15);
  });

  test("damping shortens the step and turns it towards the gradient", () => {
    const [light, heavy] = [step(system, 1)!, step(system, 1e6)!];
    expect(Math.hypot(light.lnSize, light.lnSlope)).toBeLessThan(Math.hypot(0.6, 0.4));
    expectNear(heavy.lnSize, 2 / (4 * (1 + 1e6)), 1e-5);
    expectNear(heavy.lnSlope, -3 / (9 * (1 + 1e6)), 1e-5);
  });

  test("parallel columns, empty columns and overflow are singular", () => {
    expect(inverse({ ...system, ab: 6 }, 0)).toBeNull();
    expect(step({ ...system, aa: 0, ab: 0 }, 0)).toBeNull();
    expect(step({ ...system, aa: Number.NaN }, 1)).toBeNull();
    expect(inverse({ ...system, aa: Number.POSITIVE_INFINITY }, 0)).toBeNull();
  });
});
