import { describe, expect, test } from "vitest";
import { fitModels } from "../../../src/grading/models/fitModels.ts";
import { normalCdf } from "../../../src/grading/normal.ts";
import { expectNear } from "../near.ts";
import { bruteForce, phiBySeries, sumOfSquares, writtenOut } from "./bruteForce.ts";
import { determinedFit, errorsOf, gradingOf, parametersOf } from "./gradings.ts";
import { scipyFits } from "./scipyFits.ts";

const byLeastSquares = scipyFits
  .filter(({ rule }) => rule === "least-squares")
  .map(({ name, id, each }) => {
    const used = each.apertureUm
      .map((um, i) => [um, each.passingPct[i]!] as const)
      .filter(([, pct]) => pct > 0 && pct < 100);
    const fit = determinedFit(fitModels(gradingOf(each.apertureUm, each.passingPct), { fit: "least-squares" })[id]);
    return { name, id, fit, x: used.map(([um]) => um), p: used.map(([, pct]) => pct) };
  });

test("the series for Phi that the second route uses agrees with the house's own", () => {
  for (let z = -6; z <= 6; z += 0.25) expectNear(phiBySeries(z), normalCdf(z), 0, 1e-14);
});

describe.each(byLeastSquares)("$name", ({ id, fit, x, p }) => {
  const brute = bruteForce(id, x, p);

  test("no pair of parameters on any grid comes closer to the points", () => {
    const ours = sumOfSquares(id, x, p, ...parametersOf(fit));
    expect(ours).toBeLessThanOrEqual(brute.sum * (1 + 1e-9));
    expectNear(fit.rmsPct, Math.sqrt(brute.sum / x.length), 1e-6);
  });

  // The last grid is 1e-10 wide, but the sum is flat to 1e-16 over 1e-8 or so around its end, more along a valley.
  test("the search by grids ends at the same parameters", () => {
    expectNear(parametersOf(fit)[0], brute.size, 1e-6);
    expectNear(parametersOf(fit)[1], brute.shape, 1e-6);
  });

  test("standard errors follow from differences of the written-out curve in the trade's parameters", () => {
    const [size, shape] = parametersOf(fit);
    const h = 1e-6;
    const columns = x.map((um) => {
      const at = (s: number, t: number) => writtenOut[id](um, s, t);
      return [
        (at(size * (1 + h), shape) - at(size * (1 - h), shape)) / (2 * h * size),
        (at(size, shape * (1 + h)) - at(size, shape * (1 - h))) / (2 * h * shape),
      ] as const;
    });
    const [aa, ab, bb] = [
      columns.reduce((sum, [a]) => sum + a * a, 0),
      columns.reduce((sum, [a, b]) => sum + a * b, 0),
      columns.reduce((sum, [, b]) => sum + b * b, 0),
    ];
    const scatter = sumOfSquares(id, x, p, size, shape) / (x.length - 2);
    const determinant = aa * bb - ab * ab;
    expectNear(errorsOf(fit)[0], Math.sqrt((scatter * bb) / determinant), 1e-5);
    expectNear(errorsOf(fit)[1], Math.sqrt((scatter * aa) / determinant), 1e-5);
  });
});

describe("the straight-line rule by the schoolbook's formulas", () => {
  const byLine = scipyFits.filter(({ rule }) => rule === "line");
  const grids = {
    rosinRammler: (p: number) => Math.log(Math.log(100 / (100 - p))),
    gatesGaudinSchuhmann: (p: number) => Math.log10(p / 100) * Math.LN10,
    logNormal: (p: number) => {
      let [low, high] = [-9, 9];
      for (let i = 0; i < 80; i += 1) {
        const middle = (low + high) / 2;
        if (100 * phiBySeries(middle) < p) low = middle;
        else high = middle;
      }
      return (low + high) / 2;
    },
  };

  test.each(byLine)("$name: slope, size and both errors", ({ id, each }) => {
    const fit = determinedFit(fitModels(gradingOf(each.apertureUm, each.passingPct), { fit: "line" })[id]);
    const used = each.apertureUm
      .map((um, i) => [um, each.passingPct[i]!] as const)
      .filter(([, p]) => p >= 5 && p <= 95);
    const n = used.length;
    const [u, v] = [used.map(([um]) => Math.log(um)), used.map(([, p]) => grids[id](p))];
    const sum = (a: readonly number[], b?: readonly number[]) =>
      a.reduce((s, each, i) => s + each * (b ? b[i]! : 1), 0);
    const suu = sum(u, u) - sum(u) ** 2 / n;
    const slope = (sum(u, v) - (sum(u) * sum(v)) / n) / suu;
    const intercept = (sum(v) - slope * sum(u)) / n;
    const scatter = sum(v.map((each, i) => (each - intercept - slope * u[i]!) ** 2)) / (n - 2);
    const slopeError = Math.sqrt(scatter / suu);
    // var(ln size), ln size = ubar - vbar/slope, with vbar and slope independent
    const middle = sum(v) / n / slope;
    const lnSizeError = Math.sqrt(scatter / n + (middle * slopeError) ** 2) / slope;
    const shapeFrom = (s: number) => (id === "logNormal" ? Math.exp(1 / s) : s);
    const shapeErrorFrom = id === "logNormal" ? (Math.exp(1 / slope) * slopeError) / slope ** 2 : slopeError;
    expectNear(parametersOf(fit)[0], Math.exp(-intercept / slope), 1e-10);
    expectNear(parametersOf(fit)[1], shapeFrom(slope), 1e-10);
    expectNear(errorsOf(fit)[0], Math.exp(-intercept / slope) * lnSizeError, 1e-7);
    expectNear(errorsOf(fit)[1], shapeErrorFrom, 1e-7);
  });
});
