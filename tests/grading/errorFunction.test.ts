import { expect, test } from "vitest";
import { erfc } from "../../src/grading/errorFunction.ts";
import reference from "../published/reference/fixtures/normal.json" with { type: "json" };
import { expectNear } from "./near.ts";

test("erfc agrees with scipy.special.erfc to 1e-14 relative, tails included", () => {
  reference.erfc.x.forEach((x, i) => {
    expectNear(erfc(x), reference.erfc.erfc[i] ?? Number.NaN, 1e-14);
  });
});

test("erfc(x) + erfc(-x) = 2", () => {
  for (const x of [0, 1e-9, 0.3, 0.46875, 0.47, 2, 4, 4.0001, 11]) expectNear(erfc(x) + erfc(-x), 2, 1e-15);
});

test("the far tail ends in 0 and 2, never in something that is no number", () => {
  expect([erfc(27.5), erfc(1e300), erfc(-27.5), erfc(-1e300)]).toEqual([0, 0, 2, 2]);
});
