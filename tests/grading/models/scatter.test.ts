import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fitModels } from "../../../src/grading/models/fitModels.ts";
import { MODEL_IDS, type ModelId } from "../../../src/grading/models/model.ts";
import { FITS } from "../../../src/record/product.ts";
import { expectNear } from "../near.ts";
import { normalRuns } from "../normalScatter.ts";
import { curveAt, determinedFit, errorsOf, gradingOf, parametersOf } from "./gradings.ts";

// Standard errors promise how far parameters scatter when the points scatter. Here they do, a few hundred times.

const STACK = [2000, 1400, 1000, 710, 500, 355, 250, 180] as const;
const TRUE_SLOPE = { rosinRammler: 1.3, gatesGaudinSchuhmann: 0.7, logNormal: 1 } as const;
const TRUE_SIZE = { rosinRammler: 900, gatesGaudinSchuhmann: 2600, logNormal: 650 } as const;
const clean = (id: ModelId) => curveAt(id, TRUE_SIZE[id], TRUE_SLOPE[id], STACK);

const runs = normalRuns(400, STACK.length, 710);

const rootMeanSquare = (all: readonly number[]) => Math.sqrt(all.reduce((sum, x) => sum + x * x, 0) / all.length);

describe.each(MODEL_IDS)("%s by least squares", (id) => {
  const sigmaPct = 0.4;
  const fits = runs.map((run) => {
    const passing = clean(id).map((pct, i) => pct + sigmaPct * run[i]!);
    return determinedFit(fitModels(gradingOf(STACK, passing), { fit: "least-squares" })[id]);
  });
  const truth = [TRUE_SIZE[id], id === "logNormal" ? Math.exp(1 / TRUE_SLOPE[id]) : TRUE_SLOPE[id]] as const;

  test.each([0, 1] as const)("parameter %d scatters about its true value as its standard error says", (which) => {
    const off = fits.map((fit) => parametersOf(fit)[which] - truth[which]);
    const told = rootMeanSquare(fits.map((fit) => errorsOf(fit)[which]));
    // 400 runs know a scatter to 1/sqrt(800) = 3.5 %; allowed is three times that.
    expectNear(rootMeanSquare(off) / told, 1, 0.105);
    expect(Math.abs(off.reduce((sum, x) => sum + x, 0) / off.length)).toBeLessThan(told);
  });

  test("the rms of a fit is that of the scatter, less what two parameters take up", () => {
    const found = rootMeanSquare(fits.map(({ rmsPct }) => rmsPct));
    // 2400 degrees of freedom know it to 1.4 %.
    expectNear(found, sigmaPct * Math.sqrt(6 / 8), 0.043);
  });
});

describe.each(MODEL_IDS)("%s: scatter shrunk to a part shrinks standard errors alike", (id) => {
  test.each(FITS)("by %s", (rule) =>
    fc.assert(
      fc.property(
        fc.constantFrom(...runs.slice(0, 50)),
        fc.double({ min: 0.01, max: 0.2, noNaN: true }),
        (run, part) => {
          const errorsAt = (size: number) => {
            const passing = clean(id).map((pct, i) => pct + 0.02 * size * run[i]!);
            return errorsOf(determinedFit(fitModels(gradingOf(STACK, passing), { fit: rule })[id]));
          };
          const [full, less] = [errorsAt(1), errorsAt(part)];
          expectNear(less[0], part * full[0], 0.02);
          expectNear(less[1], part * full[1], 0.02);
        },
      ),
    ),
  );
});
