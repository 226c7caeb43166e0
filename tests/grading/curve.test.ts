import { expect, test } from "vitest";
import { curveOf, stepAt } from "../../src/grading/curve.ts";
import { graded } from "./stack.ts";

const grading = graded("2000:10 1000:30 500:40 pan:20");

test("the sieves are points, finest first; the pan is none", () => {
  expect(curveOf(grading)).toEqual({
    apertureUm: [500, 1000, 2000],
    lnAperture: [Math.log(500), Math.log(1000), Math.log(2000)],
    passingPct: [20, 60, 90],
  });
});

test("a step goes from the finer to the coarser sieve", () => {
  expect(stepAt(curveOf(grading), 1)).toEqual({ fromUm: 1000, toUm: 2000, fromPct: 60, toPct: 90 });
});

test("the same rows are drawn once", () => expect(curveOf({ rows: grading.rows })).toBe(curveOf(grading)));
