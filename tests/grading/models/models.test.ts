import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Estimate, MODEL_IDS } from "../../../src/grading/models/model.ts";
import { MODELS } from "../../../src/grading/models/table.ts";
import { normalQuantile } from "../../../src/grading/normal.ts";
import { expectNear } from "../near.ts";

const pct = fc.double({ min: 0.01, max: 99.99, noNaN: true });

describe.each(MODEL_IDS)("%s", (id) => {
  const model = MODELS[id];

  test("stands in the table under its own id, with words for label, parameters, formula and source", () => {
    expect(model.id).toBe(id);
    for (const words of [model.label, model.formula, model.source]) expect(words.length).toBeGreaterThan(5);
    expect(model.parameters.map(({ unit }) => unit)).toEqual(["um", "1"]);
  });

  test("a % passing comes back from its place up the grid", () =>
    fc.assert(
      fc.property(pct, (passingPct) => expectNear(model.passingPctAt(model.gridY(passingPct)!), passingPct, 1e-12)),
    ));

  test("a size comes back from its place along the grid", () =>
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1e6, noNaN: true }), (sizeUm) =>
        expectNear(model.sizeUmAt(model.gridX(sizeUm)), sizeUm, 1e-13),
      ),
    ));

  test("more passing lies higher up the grid", () =>
    fc.assert(
      fc.property(pct, pct, (one, other) => {
        fc.pre(Math.abs(one - other) > 1e-9);
        expect(Math.sign(model.gridY(one)! - model.gridY(other)!)).toBe(Math.sign(one - other));
      }),
    ));

  test("the stated rise is the derivative of the curve", () =>
    fc.assert(
      fc.property(fc.double({ min: -6, max: 1.5, noNaN: true }), (v) => {
        fc.pre(Math.abs(v) > 1e-3);
        const step = 1e-5;
        const rise = (model.passingPctAt(v + step) - model.passingPctAt(v - step)) / (2 * step);
        expectNear(model.risePctAt(v), rise, 1e-8, 1e-8);
      }),
    ));

  test("0 %, below 0, above 100 and percentages too small to be a share have no place", () => {
    for (const nowhere of [0, -1, 100.5, Number.MIN_VALUE, Number.NaN]) expect(model.gridY(nowhere)).toBeNull();
  });

  test("every tick has its place, in rising order", () => {
    const places = model.ticksPct.map((tick) => model.gridY(tick));
    expect(places.every((place) => place !== null && Number.isFinite(place))).toBe(true);
    expect(places).toEqual(places.toSorted((a, b) => a! - b!));
    expect(model.ticksPct).toContain(50);
  });

  test("the named parameters and errors are the ones that the table announces", () => {
    const found: Estimate = { sizeUm: 500, sizeErrorUm: 5, slope: 2, slopeError: 0.1 };
    const named = model.named(found);
    const keys = model.parameters.map(({ key }) => key);
    expect(Object.keys(named).toSorted()).toEqual(["model", "standardErrors", ...keys].toSorted());
    expect(Object.keys(named.standardErrors)).toEqual(keys);
    expect(Object.values(named)).toContain(500);
  });
});

test("Rosin-Rammler passes 63.2 % at its size parameter and keeps exp(-2^n) above twice that size", () => {
  expectNear(MODELS.rosinRammler.passingPctAt(0), 100 * (1 - 1 / Math.E), 1e-15);
  expectNear(MODELS.rosinRammler.passingPctAt(3 * Math.log(2)), 100 * (1 - Math.exp(-8)), 1e-13);
  expect(MODELS.rosinRammler.gridY(100)).toBeNull();
});

test("Gates-Gaudin-Schuhmann passes 100 % from its top size on and a quarter at a quarter of it for m = 1", () => {
  const model = MODELS.gatesGaudinSchuhmann;
  expectNear(model.passingPctAt(Math.log(0.25)), 25, 1e-14);
  expect([0, 0.5, 50].map(model.passingPctAt)).toEqual([100, 100, 100]);
  expect([0, 0.5, 50].map(model.risePctAt)).toEqual([0, 0, 0]);
  expect([model.gridY(100), model.topV]).toEqual([0, 0]);
});

test("the log-normal passes half at its median and 84.13 % at its median times s_g", () => {
  const model = MODELS.logNormal;
  expect(model.passingPctAt(0)).toBe(50);
  expectNear(model.passingPctAt(1), 84.1344746068543, 1e-13);
  expect(model.gridY(84)).toBe(normalQuantile(0.84));
  expect(model.gridY(100)).toBeNull();
});

test("only the power law ends: the other grids run on", () => {
  expect(MODEL_IDS.filter((id) => MODELS[id].topV !== null)).toEqual(["gatesGaudinSchuhmann"]);
});

test("a log-normal slope of 1/ln 2 is a geometric standard deviation of 2, with the error of the slope carried over", () => {
  const slope = 1 / Math.log(2);
  const named = MODELS.logNormal.named({ sizeUm: 300, sizeErrorUm: 1, slope, slopeError: 1e-6 });
  if (named.model !== "logNormal") throw new Error(named.model);
  expectNear(named.geometricStandardDeviation, 2, 1e-15);
  const shifted = Math.exp(1 / slope) - Math.exp(1 / (slope + 1e-6));
  expectNear(named.standardErrors.geometricStandardDeviation, shifted, 1e-5);
});
