import { expect, test } from "vitest";
import { isBeyondY, toleranceYUm } from "../../../src/care/inspection/limits.ts";
import { describeAperture } from "../../../src/series/describe.ts";

test("Y is that of the series for woven wire, and not known for other cloths or beyond the series", () => {
  expect(toleranceYUm({ apertureUm: 500 })).toBe(describeAperture(500).meanToleranceUm);
  expect(toleranceYUm({ apertureUm: 500, cloth: "perforated plate" })).toBe(null);
  expect(toleranceYUm({ apertureUm: 5 })).toBe(null);
});

test("a mean on Y is within, beyond it on either side is not; without Y nothing is said", () => {
  expect([484, 483.9, 516, 516.1].map((um) => isBeyondY(um, 500, 16))).toEqual([false, true, false, true]);
  expect(isBeyondY(900, 500, null)).toBe(false);
});
