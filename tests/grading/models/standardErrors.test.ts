import { expect, test } from "vitest";
import { sievePoints } from "../../../src/grading/models/points.ts";
import { estimateOf } from "../../../src/grading/models/standardErrors.ts";
import { straightLine } from "../../../src/grading/models/straightLine.ts";
import { MODELS } from "../../../src/grading/models/table.ts";
import { expectNear } from "../near.ts";
import { gradingOf } from "./gradings.ts";

const power = MODELS.gatesGaudinSchuhmann;

test("worked by hand: v = -1.1, -0.8, -0.1 at u = 0, 1, 2 has slope 1/2, residuals 1/15 (1, -2, 1)", () => {
  const passing = [-0.1, -0.8, -1.1].map((v) => 100 * Math.exp(v));
  const points = sievePoints(gradingOf([Math.exp(2), Math.E, 1], passing));
  const line = straightLine(power, points)!;
  expectNear(line.slope, 0.5, 1e-13);
  // ubar = 1, vbar = -2/3, Suu = 2; sum r^2 = 6/225; s^2 = 6/225 / (3 - 2); var slope = s^2/2
  const found = estimateOf("line", power, points, line)!;
  expectNear(found.slopeError, Math.sqrt(6 / 225 / 2), 1e-12);
  // var ln size = s^2/(3 slope^2) + (vbar/slope^2)^2 var slope
  const lnError = Math.sqrt(6 / 225 / 3 / 0.25 + (2 / 3 / 0.25) ** 2 * (6 / 225 / 2));
  expectNear(found.sizeErrorUm, Math.exp(1 + 4 / 3) * lnError, 1e-12);
});

test("both rules agree to first order where the scatter is small and even on the grid", () => {
  const points = sievePoints(gradingOf([1000, 500, 250], [60, 60 / Math.SQRT2, 30]));
  const line = straightLine(power, points)!;
  for (const rule of ["line", "least-squares"] as const) {
    expectNear(estimateOf(rule, power, points, line)!.slopeError, 0, 0, 1e-12);
  }
});

test("there is none where the points do not part the two parameters, nor for two points", () => {
  const beyond = sievePoints(gradingOf([8000, 4000, 2000], [99, 98, 97]));
  expect(estimateOf("least-squares", power, beyond, { lnSizeUm: Math.log(1000), slope: 1 })).toBeNull();
  const two = sievePoints(gradingOf([1000, 500], [60, 30]));
  expect(estimateOf("line", power, two, straightLine(power, two)!)).toBeNull();
});
