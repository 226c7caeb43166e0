import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fitModels } from "../../../src/grading/models/fitModels.ts";
import { MODEL_IDS } from "../../../src/grading/models/model.ts";
import { modelPassingPct, modelSizeUm } from "../../../src/grading/models/reading.ts";
import { MODELS } from "../../../src/grading/models/table.ts";
import { FITS } from "../../../src/record/product.ts";
import { expectNear } from "../near.ts";
import { numberOf } from "../stack.ts";
import { anyPassing, determinedFit, gradingOf, parametersOf, TWELVE_SIEVES } from "./gradings.ts";

const sand = gradingOf(TWELVE_SIEVES, [100, 99.2, 97.1, 92.8, 84, 72.5, 57.3, 40.9, 25.2, 13.1, 6, 1.2]);
const fits = FITS.flatMap((rule) =>
  MODEL_IDS.map((id) => ({ rule, id, fit: determinedFit(fitModels(sand, { fit: rule })[id]) })),
);

describe("what a fit hands on", () => {
  test("goes through JSON unchanged, so no number is lost as null", () =>
    fc.assert(
      fc.property(anyPassing, fc.constantFrom(...FITS), (passingPct, rule) => {
        const found = fitModels(gradingOf(TWELVE_SIEVES, passingPct), { fit: rule });
        expect(JSON.parse(JSON.stringify(found))).toEqual(found);
      }),
    ));

  test.each(fits)("$id by $rule has the keys of the contract", ({ id, fit }) => {
    const own = {
      rosinRammler: ["sizeUm", "spread"],
      gatesGaudinSchuhmann: ["sizeUm", "exponent"],
      logNormal: ["medianUm", "geometricStandardDeviation"],
    }[id];
    expect(Object.keys(fit)).toEqual(
      expect.arrayContaining([...own, "r2", "rmsPct", "pointsUsed", "rule", "standardErrors"]),
    );
    expect(Object.keys(fit.standardErrors)).toEqual(own);
  });

  test.each(fits)("$id by $rule: its straight line on the grid is its curve", ({ id, fit }) => {
    const model = MODELS[id];
    for (const um of [80, 150, 300, 600, 1100]) {
      const v = fit.gridLine.slope * (model.gridX(um) - fit.gridLine.lnSizeUm);
      const passingPct = numberOf(modelPassingPct(fit, um));
      expectNear(model.gridY(passingPct)!, v, 1e-9, 1e-9);
      expectNear(numberOf(modelSizeUm(fit, passingPct)), um, 1e-8);
    }
  });

  test.each(fits)("$id by $rule: every tick of the grid lies at a size of the fitted line", ({ id, fit }) => {
    const model = MODELS[id];
    for (const tick of model.ticksPct) {
      const u = fit.gridLine.lnSizeUm + model.gridY(tick)! / fit.gridLine.slope;
      expectNear(model.sizeUmAt(u), numberOf(modelSizeUm(fit, tick)), 1e-12);
    }
  });
});

describe("the size parameter is a percentile of its own curve", () => {
  test.each([
    ["rosinRammler", 100 * (1 - Math.exp(-1))],
    ["gatesGaudinSchuhmann", 100],
    ["logNormal", 50],
  ] as const)("%s: at %d %% passing", (id, pct) => {
    for (const { fit } of fits.filter((each) => each.id === id)) {
      expectNear(numberOf(modelSizeUm(fit, pct)), parametersOf(fit)[0], 1e-9);
    }
  });

  test("and s_g is d84.13 over d50", () => {
    for (const { fit } of fits.filter((each) => each.id === "logNormal")) {
      const [d84, d50] = [84.1344746068543, 50].map((pct) => numberOf(modelSizeUm(fit, pct)));
      expectNear(d84! / d50!, parametersOf(fit)[1], 1e-9);
    }
  });
});

test("the rules differ on the same sand, so the rule must be told: n of Rosin-Rammler by more than 2 %", () => {
  const spread = (rule: (typeof FITS)[number]) =>
    parametersOf(determinedFit(fitModels(sand, { fit: rule }).rosinRammler))[1];
  expect(Math.abs(spread("line") / spread("least-squares") - 1)).toBeGreaterThan(0.005);
});
