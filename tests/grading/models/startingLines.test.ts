import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { endlessPowerLaw } from "../../../src/grading/models/gatesGaudinSchuhmann.ts";
import { leastSquares } from "../../../src/grading/models/leastSquares.ts";
import { levenbergMarquardt } from "../../../src/grading/models/levenbergMarquardt.ts";
import { normalEquations } from "../../../src/grading/models/normalEquations.ts";
import { sievePoints } from "../../../src/grading/models/points.ts";
import { candidate, closest, startingLines } from "../../../src/grading/models/startingLines.ts";
import { straightLine } from "../../../src/grading/models/straightLine.ts";
import { MODELS } from "../../../src/grading/models/table.ts";
import { expectNear } from "../near.ts";
import { anyPassing, curveAt, gradingOf, TWELVE_SIEVES } from "./gradings.ts";

const model = MODELS.rosinRammler;
const sand = sievePoints(gradingOf([2000, 1000, 500, 250, 125], [97, 79, 45, 21, 3]));

describe("starts", () => {
  test("first from the straight line over 5 to 95 % (CP-11)", () => {
    const middle = sand.filter(({ passingPct }) => passingPct >= 5 && passingPct <= 95);
    expect(startingLines(model, model, sand)[0]!.line).toEqual(straightLine(model, middle));
  });

  test("from the line through all points where the middle holds fewer than two", () => {
    const steep = sievePoints(gradingOf([2000, 1000, 500], [99, 40, 1]));
    expect(startingLines(model, model, steep)[0]!.line).toEqual(straightLine(model, steep));
  });

  test("then from four slopes, each at the sieve where it comes closest", () => {
    const others = startingLines(model, model, sand).slice(1);
    expect(others.map(({ line }) => line.slope)).toEqual([0.5, 1.5, 4, 12]);
    for (const { line, sum } of others) {
      for (const { lnSizeUm } of sand) {
        expect(normalEquations(sand, model, { ...line, lnSizeUm }).sum).toBeGreaterThanOrEqual(sum);
      }
      expect(sand.map(({ lnSizeUm }) => lnSizeUm)).toContain(line.lnSizeUm);
    }
  });

  test("at no more than 24 of very many sieves, and still near the best size", () => {
    const apertures = Array.from({ length: 60 }, (_, i) => 20_000 / 1.1 ** i);
    const many = sievePoints(gradingOf(apertures, curveAt("rosinRammler", 900, 1.5, apertures)));
    const start = startingLines(model, model, many).find(({ line }) => line.slope === 1.5)!;
    expect(Math.abs(start.line.lnSizeUm - Math.log(900))).toBeLessThan(2 * Math.log(1.1));
  });

  test("without a line where no line rises", () => {
    const flat = sievePoints(gradingOf([1000, 500], [40, 40]));
    expect(startingLines(model, model, flat)).toHaveLength(4);
    expect(startingLines(model, model, [])).toEqual([]);
  });
});

test("a start carries the misfit of its own curve", () => {
  const line = { lnSizeUm: Math.log(400), slope: 1 };
  const endless = candidate(sand, endlessPowerLaw, line).sum;
  const ended = candidate(sand, MODELS.gatesGaudinSchuhmann, line).sum;
  expectNear(
    endless,
    sand.reduce((sum, p) => sum + (p.passingPct - (100 * Math.exp(p.lnSizeUm)) / 400) ** 2, 0),
    1e-12,
  );
  expect(endless).toBeGreaterThan(ended);
});

test("the closest of candidates is the one with the least misfit, the first of equals, none of none", () => {
  const [a, b, c] = [3, 1, 1].map((sum, i) => ({ line: { lnSizeUm: i, slope: 1 }, sum }));
  expect(closest([a!, b!, c!])).toBe(b);
  expect(closest([])).toBeNull();
});

test("the end is never further off than any start, nor than where the line alone would lead", () =>
  fc.assert(
    fc.property(anyPassing, (passingPct) => {
      const points = sievePoints(gradingOf(TWELVE_SIEVES, passingPct)).filter(
        (point) => point.passingPct > 0.01 && point.passingPct < 99.99,
      );
      const end = leastSquares(model, points);
      fc.pre(end !== null);
      const sum = candidate(points, model, end!).sum * (1 - 1e-9);
      for (const start of startingLines(model, model, points)) {
        expect(start.sum).toBeGreaterThanOrEqual(sum);
        const alone = levenbergMarquardt(points, model, start.line);
        if (alone) expect(candidate(points, model, alone).sum).toBeGreaterThanOrEqual(sum);
      }
    }),
  ));
