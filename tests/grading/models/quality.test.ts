import { expect, test } from "vitest";
import { sievePoints } from "../../../src/grading/models/points.ts";
import { qualityOf } from "../../../src/grading/models/quality.ts";
import { straightLine } from "../../../src/grading/models/straightLine.ts";
import { MODELS } from "../../../src/grading/models/table.ts";
import { expectNear } from "../near.ts";
import { gradingOf } from "./gradings.ts";

const power = MODELS.gatesGaudinSchuhmann;
const points = sievePoints(gradingOf([1000, 500, 250], [90, 50, 25]));

test("worked by hand: the law 100 (x/1000) misses 90, 50, 25 by 10, 0, 0 % points", () => {
  const { rmsPct } = qualityOf("least-squares", power, points, { lnSizeUm: Math.log(1000), slope: 1 });
  expectNear(rmsPct, Math.sqrt(100 / 3), 1e-12);
});

test("r2 is one minus unexplained by total on the grid", () => {
  const [a, b, c] = [Math.log(0.9), Math.log(0.5), Math.log(0.25)];
  const middle = (a + b + c) / 3;
  const total = (a - middle) ** 2 + (b - middle) ** 2 + (c - middle) ** 2;
  expectNear(
    qualityOf("least-squares", power, points, { lnSizeUm: Math.log(1000), slope: 1 }).r2,
    1 - a ** 2 / total,
    1e-12,
  );
});

test("above the top size the power law counts as 100 %, not as more", () => {
  const { rmsPct, r2 } = qualityOf("least-squares", power, points, { lnSizeUm: Math.log(500), slope: 1 });
  expectNear(rmsPct, Math.sqrt((10 ** 2 + 50 ** 2 + 25 ** 2) / 3), 1e-12);
  expect(r2).toBeLessThan(1);
});

test("the r2 of a straight line is the squared correlation on the grid, wherever it passes 100 %", () => {
  const line = straightLine(power, points)!;
  const [u, v] = [points.map((point) => point.lnSizeUm), points.map((point) => Math.log(point.passingPct / 100))];
  const mean = (a: number[]) => a.reduce((s, x) => s + x, 0) / a.length;
  const moment = (a: number[], b: number[]) => mean(a.map((x, i) => x * b[i]!)) - mean(a) * mean(b);
  expectNear(qualityOf("line", power, points, line).r2, moment(u, v) ** 2 / (moment(u, u) * moment(v, v)), 1e-12);
  const steep = { lnSizeUm: Math.log(500), slope: 1 };
  expect(qualityOf("line", power, points, steep).r2).toBeLessThan(qualityOf("least-squares", power, points, steep).r2);
});

test("a line worse than a horizontal one has an r2 below 0", () => {
  expect(qualityOf("least-squares", MODELS.logNormal, points, { lnSizeUm: Math.log(100), slope: 5 }).r2).toBeLessThan(
    0,
  );
});
