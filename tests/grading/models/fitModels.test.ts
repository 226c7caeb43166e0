import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fitModels } from "../../../src/grading/models/fitModels.ts";
import { MODEL_IDS, type ModelId } from "../../../src/grading/models/model.ts";
import { MODELS } from "../../../src/grading/models/table.ts";
import { FITS } from "../../../src/record/product.ts";
import { expectNear } from "../near.ts";
import { graded } from "../stack.ts";
import { anyPassing, curveAt, determinedFit, errorsOf, gradingOf, parametersOf, TWELVE_SIEVES } from "./gradings.ts";

const RULES = MODEL_IDS.flatMap((id) => FITS.map((rule) => [id, rule] as const));

/** Curves that stay well inside twelve sieves from 75 um to 4.75 mm. */
const anyCurve = fc.record({
  sizeUm: fc.double({ min: 400, max: 2000, noNaN: true }),
  slope: fc.double({ min: 0.6, max: 2.5, noNaN: true }),
});

const fitOf = (
  id: ModelId,
  rule: (typeof FITS)[number],
  passingPct: readonly number[],
  stack: readonly number[] = TWELVE_SIEVES,
) => determinedFit(fitModels(gradingOf(stack, passingPct), { fit: rule })[id]);

/** Passing % that falls from sieve to sieve, by more or less, but stays from 5 to 95 %. */
const anyMiddle = fc
  .array(fc.double({ min: 1, max: 7, noNaN: true }), { minLength: 11, maxLength: 11 })
  .map((falls) => {
    const whole = falls.reduce((sum, fall) => sum + fall, 0);
    const fallen = falls.map((_, i) => falls.slice(0, i + 1).reduce((sum, fall) => sum + fall, 0));
    return [95, ...fallen.map((fall) => 95 - (90 * fall) / whole)];
  });

const shapeOf = (id: ModelId, slope: number) => (id === "logNormal" ? Math.exp(1 / slope) : slope);

describe.each(RULES)("%s by %s", (id, rule) => {
  test("data made from known parameters give them back, with next to no error", () =>
    fc.assert(
      fc.property(anyCurve, ({ sizeUm, slope }) => {
        const fit = fitOf(id, rule, curveAt(id, sizeUm, slope, TWELVE_SIEVES));
        expectNear(parametersOf(fit)[0], sizeUm, 1e-8);
        expectNear(parametersOf(fit)[1], shapeOf(id, slope), 1e-8);
        expectNear(errorsOf(fit)[0] / sizeUm, 0, 0, 1e-8);
        expectNear(fit.rmsPct, 0, 0, 1e-7);
        expectNear(fit.r2, 1, 1e-9);
      }),
    ));

  test("apertures times c give the size times c, the same second parameter and the same quality", () =>
    fc.assert(
      fc.property(anyMiddle, fc.double({ min: 0.1, max: 10, noNaN: true }), (passingPct, c) => {
        const stretched = TWELVE_SIEVES.map((um) => um * c);
        const [one, other] = [fitOf(id, rule, passingPct), fitOf(id, rule, passingPct, stretched)];
        expectNear(parametersOf(other)[0], parametersOf(one)[0] * c, 1e-6);
        expectNear(parametersOf(other)[1], parametersOf(one)[1], 1e-6);
        expectNear(errorsOf(other)[0], errorsOf(one)[0] * c, 1e-5);
        expectNear(other.rmsPct, one.rmsPct, 1e-9, 1e-12);
      }),
      { numRuns: 40 },
    ));

  test("a tenth of the scatter gives a tenth of the standard errors", () => {
    const clean = curveAt(id, 900, 1.2, TWELVE_SIEVES);
    const scatter = [0.31, -0.22, 0.13, -0.38, 0.27, 0.11, -0.35, 0.24, -0.18, 0.32, -0.15, 0.21];
    const errorsAt = (part: number) =>
      errorsOf(
        fitOf(
          id,
          rule,
          clean.map((pct, i) => pct + (part * scatter[i]! * pct * (100 - pct)) / 2500),
        ),
      );
    const [wide, narrow] = [errorsAt(1), errorsAt(0.1)];
    expectNear(narrow[0], wide[0] / 10, 0.02);
    expectNear(narrow[1], wide[1] / 10, 0.02);
    expect(wide[0]).toBeGreaterThan(0.1);
  });

  test("the order of the rows does not matter, nor what the pan holds beyond the passing curve", () => {
    const grading = gradingOf([1000, 500, 250, 125], [90, 60, 25, 8]);
    const turned = { ...grading, rows: grading.rows.toReversed() };
    expect(fitModels(turned, { fit: rule })[id]).toEqual(fitModels(grading, { fit: rule })[id]);
  });

  test("says what it rests on: rule, points, their range and that of the sieves, and its straight line", () => {
    const fit = fitOf(id, rule, [100, 96, 60, 25, 8, 2], [2000, 1000, 500, 250, 125, 63]);
    const wide = rule === "least-squares";
    expect([fit.rule, fit.model, fit.pointsUsed]).toEqual([rule, id, wide ? 5 : 3]);
    expect(fit.used).toEqual(wide ? { fromUm: 63, toUm: 1000 } : { fromUm: 125, toUm: 500 });
    expect(fit.sieves).toEqual({ fromUm: 63, toUm: 2000 });
    expectNear(parametersOf(fit)[0], Math.exp(fit.gridLine.lnSizeUm), 1e-14);
    expectNear(parametersOf(fit)[1], shapeOf(id, fit.gridLine.slope), 1e-14);
  });
});

const numbersIn = (found: unknown): number[] =>
  typeof found === "number"
    ? [found]
    : typeof found === "object" && found !== null
      ? Object.values(found).flatMap(numbersIn)
      : [];

describe("whatever the masses", () => {
  const oddPassing = fc
    .array(
      fc.oneof(fc.constantFrom(0, 100, 50, 1e-12, 100 - 1e-12, 5, 95), fc.double({ min: 0, max: 100, noNaN: true })),
      {
        minLength: 1,
        maxLength: 12,
      },
    )
    .map((pcts) => pcts.toSorted((a, b) => b - a));

  test.each(FITS)("%s leaves no NaN or Infinity, and where there is no fit there is a reason", (rule) =>
    fc.assert(
      fc.property(fc.oneof(oddPassing, anyPassing), (passingPct) => {
        const fits = fitModels(gradingOf(TWELVE_SIEVES.slice(0, passingPct.length), passingPct), { fit: rule });
        expect(Object.keys(fits)).toEqual([...MODEL_IDS]);
        expect(numbersIn(fits).filter((number) => !Number.isFinite(number))).toEqual([]);
        for (const fit of Object.values(fits)) {
          if (!fit.determinable) expect(fit.reason.length).toBeGreaterThan(20);
          else expect(Math.min(...errorsOf(fit), ...parametersOf(fit), fit.rmsPct)).toBeGreaterThanOrEqual(0);
        }
      }),
      { numRuns: 300 },
    ),
  );

  test("least squares comes at least as close in % passing as the line, the line as close on the grid", () =>
    fc.assert(
      fc.property(anyMiddle, (passingPct) => {
        const grading = gradingOf(TWELVE_SIEVES, passingPct);
        const [squares, line] = [fitModels(grading, { fit: "least-squares" }), fitModels(grading, { fit: "line" })];
        for (const id of MODEL_IDS) {
          const [near, straight] = [determinedFit(squares[id]), determinedFit(line[id])];
          expect([near.pointsUsed, straight.pointsUsed]).toEqual([12, 12]);
          expect(near.rmsPct).toBeLessThanOrEqual(straight.rmsPct * (1 + 1e-9));
          if (id !== "gatesGaudinSchuhmann") expect(straight.r2).toBeGreaterThanOrEqual(near.r2 - 1e-9);
        }
      }),
      { numRuns: 50 },
    ));
});

describe("refuses in the operator's words", () => {
  const reasons = (passingPct: readonly number[], rule: (typeof FITS)[number] = "least-squares") =>
    Object.values(fitModels(gradingOf(TWELVE_SIEVES.slice(0, passingPct.length), passingPct), { fit: rule })).map(
      (fit) => (fit.determinable ? fit.model : fit.reason),
    );

  test("everything on one sieve", () => {
    const reason = "no sieve has more than 0 and less than 100 % passing; a fit needs 3";
    expect(reasons([100, 100, 0, 0])).toEqual([reason, reason, reason]);
    expect(fitModels(graded("1000:0 500:100 250:0 pan:0"), { fit: "line" }).logNormal).toEqual({
      determinable: false,
      reason: "no sieve has 5 to 95 % passing; a fit needs 3",
    });
  });

  test("two sieves", () => expect(reasons([100, 70, 20, 0])[0]).toMatch(/^only 2 sieves have .* a fit needs 3$/));

  test("a flat curve", () =>
    expect(new Set(reasons([40, 40, 40]))).toEqual(
      new Set(["the same share passes all 3 sieves; a flat curve has no spread"]),
    ));

  test("a curve that ends at no size of a grain", () =>
    expect(new Set(reasons([50.001, 50, 49.999], "line"))).toEqual(
      new Set(["the curve is too flat over these sieves: the fit ends at a size that no grain has"]),
    ));

  test("parameters that the sieves do not pin down", () =>
    expect(reasons([99.9999999, 60, 1e-8, 1e-8])[2]).toBe(
      "these sieves do not pin down both parameters: the curve is too steep or too flat between them",
    ));
});

test("the twelve-sieve masonry sand of Tessel Hollow is fitted by all three models", () => {
  const sand = graded(
    "4750:0 3350:2.4 2360:6.3 1700:12.9 1180:26.4 850:34.5 600:45.6 425:49.2 300:47.1 212:36.3 150:21.3 75:14.4 pan:3.6",
  );
  const fits = fitModels(sand, { fit: "least-squares" });
  for (const id of MODEL_IDS) expect(MODELS[determinedFit(fits[id]).model].id).toBe(id);
  expectNear(parametersOf(determinedFit(fits.rosinRammler))[0], 700, 0.05);
  expectNear(parametersOf(determinedFit(fits.logNormal))[0], 520, 0.05);
});
