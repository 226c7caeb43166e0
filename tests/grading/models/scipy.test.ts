import { describe, expect, test } from "vitest";
import { fitModels } from "../../../src/grading/models/fitModels.ts";
import { MODELS } from "../../../src/grading/models/table.ts";
import { determinedFit, errorsOf, gradingOf, parametersOf } from "./gradings.ts";
import { scipyCases, scipyFits, scipyMade } from "./scipyFits.ts";

// Where a sum of squares is flat to 1e-16 of itself the parameters are free to about the root of that, 1.5e-8, on each
// side of the comparison; at its minimum the sum itself is free of first-order error, so the rms agrees much closer.
const PARAMETERS = 3e-8;
const RMS = 1e-11;

const relative = (ours: number, theirs: number) => Math.abs(ours / theirs - 1);

test("the reference comes from scipy 1.10.1 and holds nine data sets, 51 fits", () => {
  expect(scipyMade).toEqual({ by: "make_fits.py", scipy: "1.10.1", numpy: "1.24.2" });
  expect([scipyCases.length, scipyFits.length]).toEqual([9, 51]);
});

describe.each(scipyFits)("$name", ({ rule, id, each, fit }) => {
  const ours = determinedFit(fitModels(gradingOf(each.apertureUm, each.passingPct), { fit: rule })[id]);
  const keys = MODELS[id].parameters.map(({ key }) => key);

  test("size and second parameter are those of scipy", () => {
    parametersOf(ours).forEach((found, i) => {
      expect(relative(found, fit[keys[i]!]!)).toBeLessThan(PARAMETERS);
    });
  });

  test("standard errors are those of scipy", () => {
    errorsOf(ours).forEach((found, i) => {
      expect(relative(found, fit.standardErrors[keys[i]!]!)).toBeLessThan(PARAMETERS);
    });
  });

  test("rms, r2 and the number of points are those of scipy", () => {
    expect(relative(ours.rmsPct, fit.rmsPct!)).toBeLessThan(RMS);
    expect(Math.abs(ours.r2 - fit.r2!)).toBeLessThan(PARAMETERS);
    expect(ours.pointsUsed).toBe(fit.pointsUsed);
  });
});

test("where fewer than three sieves lie from 5 to 95 % there is no line, here or there", () => {
  const narrow = scipyCases.filter((each) => each.fits.line.rosinRammler === null);
  expect(narrow.map(({ name }) => name)).toEqual(["TH-PG3 polymer granules, very narrow"]);
  const ours = fitModels(gradingOf(narrow[0]!.apertureUm, narrow[0]!.passingPct), { fit: "line" });
  expect(ours.rosinRammler).toEqual({
    determinable: false,
    reason: "only 2 sieves have 5 to 95 % passing; a fit needs 3",
  });
});
