import fc from "fast-check";
import { expect, test } from "vitest";
import { MODEL_IDS } from "../../../src/grading/models/model.ts";
import { straightLine } from "../../../src/grading/models/straightLine.ts";
import { MODELS } from "../../../src/grading/models/table.ts";
import { expectNear } from "../near.ts";
import { curveAt } from "./gradings.ts";

const at = (...pairs: [number, number][]) => pairs.map(([um, passingPct]) => ({ lnSizeUm: Math.log(um), passingPct }));

test("two points of a power law, worked by hand: 100 (x/1000)^0.5 passes 50 % at 250 um and 25 % at 62.5 um", () => {
  const line = straightLine(MODELS.gatesGaudinSchuhmann, at([62.5, 25], [250, 50]));
  expectNear(Math.exp(line!.lnSizeUm), 1000, 1e-13);
  expectNear(line!.slope, 0.5, 1e-14);
});

test("the slope is correlation times ratio of standard deviations, and the line goes through the centroid", () => {
  const points = at([100, 4], [200, 17], [400, 45], [800, 70], [1600, 96]);
  for (const id of MODEL_IDS) {
    const u = points.map((point) => point.lnSizeUm);
    const v = points.map((point) => MODELS[id].gridY(point.passingPct)!);
    const mean = (a: number[]) => a.reduce((s, x) => s + x, 0) / a.length;
    const moment = (a: number[], b: number[]) => mean(a.map((x, i) => x * b[i]!)) - mean(a) * mean(b);
    const correlation = moment(u, v) / Math.sqrt(moment(u, u) * moment(v, v));
    const line = straightLine(MODELS[id], points)!;
    expectNear(line.slope, correlation * Math.sqrt(moment(v, v) / moment(u, u)), 1e-12);
    expectNear(line.slope * (mean(u) - line.lnSizeUm), mean(v), 0, 1e-12);
  }
});

test("points without a place on the grid are left out, not bent into it", () => {
  const inside = at([250, 30], [500, 60]);
  const line = straightLine(MODELS.rosinRammler, [...at([63, 0]), ...inside, ...at([2000, 100])]);
  expect(line).toEqual(straightLine(MODELS.rosinRammler, inside));
});

test("there is none through fewer than two sizes, nor a flat or falling one", () => {
  const model = MODELS.logNormal;
  expect(straightLine(model, [])).toBeNull();
  expect(straightLine(model, at([500, 40]))).toBeNull();
  expect(straightLine(model, at([250, 40], [500, 40]))).toBeNull();
  expect(straightLine(model, at([250, 60], [500, 40]))).toBeNull();
});

test("points on a model's curve give that curve back", () =>
  fc.assert(
    fc.property(
      fc.constantFrom(...MODEL_IDS),
      fc.double({ min: 300, max: 900, noNaN: true }),
      fc.double({ min: 0.5, max: 4, noNaN: true }),
      (id, sizeUm, slope) => {
        const apertures = [90, 125, 180, 250];
        const passing = curveAt(id, sizeUm, slope, apertures);
        fc.pre(passing.every((pct) => pct > 1e-3 && pct < 99.9));
        const line = straightLine(MODELS[id], at(...apertures.map((um, i): [number, number] => [um, passing[i]!])));
        expectNear(Math.exp(line!.lnSizeUm), sizeUm, 1e-9);
        expectNear(line!.slope, slope, 1e-9);
      },
    ),
  ));
