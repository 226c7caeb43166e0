import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fitModels } from "../../../src/grading/models/fitModels.ts";
import { MODEL_IDS } from "../../../src/grading/models/model.ts";
import { modelPassingPct, modelSizeUm } from "../../../src/grading/models/reading.ts";
import { expectNear } from "../near.ts";
import { assumptionsOf, numberOf, reasonOf } from "../stack.ts";
import { writtenOut } from "./bruteForce.ts";
import { determinedFit, gradingOf, parametersOf } from "./gradings.ts";

const fits = fitModels(gradingOf([2000, 1000, 500, 250, 125], [96, 79, 45, 21, 9]), { fit: "least-squares" });

describe.each(MODEL_IDS)("%s", (id) => {
  const fit = determinedFit(fits[id]);

  test("passing at a size is that of the named parameters in the written-out formula", () => {
    for (const um of [20, 63, 300, 1100, 5000]) {
      expectNear(numberOf(modelPassingPct(fit, um)), writtenOut[id](um, ...parametersOf(fit)), 1e-10);
    }
  });

  test("a size comes back from its passing %", () =>
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 99.5, noNaN: true }), (pct) => {
        expectNear(numberOf(modelPassingPct(fit, numberOf(modelSizeUm(fit, pct)))), pct, 1e-10);
      }),
    ));

  test("passing never falls as the size grows and keeps to 0..100", () =>
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 1e9, noNaN: true }),
        fc.double({ min: 1, max: 1000, noNaN: true }),
        (um, times) => {
          const [less, more] = [numberOf(modelPassingPct(fit, um)), numberOf(modelPassingPct(fit, um * times))];
          expect(less).toBeGreaterThanOrEqual(0);
          expect(more).toBeGreaterThanOrEqual(less);
          expect(more).toBeLessThanOrEqual(100);
        },
      ),
    ));

  test("says that it is a model's word, and when it lies beyond the sieves", () => {
    const label = {
      rosinRammler: "Rosin-Rammler",
      gatesGaudinSchuhmann: "Gates-Gaudin-Schuhmann",
      logNormal: "log-normal",
    };
    expect(assumptionsOf(modelPassingPct(fit, 63))).toEqual([`${label[id]}, beyond the sieves`]);
    expect(assumptionsOf(modelPassingPct(fit, 4000))).toEqual([`${label[id]}, beyond the sieves`]);
    expect(assumptionsOf(modelPassingPct(fit, 700))).toEqual([`${label[id]}, not read from the sieves`]);
    expect(assumptionsOf(modelSizeUm(fit, 2))).toEqual([`${label[id]}, beyond the sieves`]);
    expect(assumptionsOf(modelSizeUm(fit, 50))).toEqual([`${label[id]}, not read from the sieves`]);
  });

  test("the edges of the stack itself are not beyond it", () => {
    for (const um of [125, 2000]) expect(assumptionsOf(modelPassingPct(fit, um))[0]).toMatch(/not read/);
  });
});

test("100 % is reached at the top size by the power law alone, 0 % by none", () => {
  expectNear(
    numberOf(modelSizeUm(fits.gatesGaudinSchuhmann, 100)),
    parametersOf(determinedFit(fits.gatesGaudinSchuhmann))[0],
    1e-14,
  );
  expect(reasonOf(modelSizeUm(fits.rosinRammler, 100))).toBe("Rosin-Rammler reaches 100 % at no size");
  expect(reasonOf(modelSizeUm(fits.logNormal, 100))).toBe("log-normal reaches 100 % at no size");
  for (const id of MODEL_IDS) expect(reasonOf(modelSizeUm(fits[id], 0))).toMatch(/reaches 0 % at no size$/);
});

test("the median of the log-normal is its size at 50 %", () => {
  const fit = determinedFit(fits.logNormal);
  expectNear(numberOf(modelSizeUm(fit, 50)), parametersOf(fit)[0], 1e-13);
});

test("an impossible size and a fit that is none are answered with a reason", () => {
  for (const um of [0, -5, Number.NaN, Number.POSITIVE_INFINITY]) {
    expect(reasonOf(modelPassingPct(fits.rosinRammler, um))).toBe("a size must be above 0 um");
  }
  const none = { determinable: false, reason: "a flat curve has no spread" } as const;
  expect(reasonOf(modelPassingPct(none, 500))).toBe(none.reason);
  expect(reasonOf(modelSizeUm(none, 50))).toBe(none.reason);
});

test("a size too small or large for a number is no number", () => {
  const flat = { ...determinedFit(fits.gatesGaudinSchuhmann), gridLine: { lnSizeUm: 6, slope: 0.001 } };
  expect(reasonOf(modelSizeUm(flat, 1))).toMatch(/at no size/);
});
