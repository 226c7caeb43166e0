import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chiSquaredCdf, chiSquaredQuantile } from "../../../src/control/capability/chiSquared.ts";
import { normalQuantile } from "../../../src/grading/normal.ts";
import { expectNear } from "../../grading/near.ts";
import reference from "../../published/reference/fixtures/control.json" with { type: "json" };

describe.each(reference.chiSquared)("with $freedom degrees of freedom, as scipy has it", ({ freedom, p, x, cdf }) => {
  test.each(p.map((share, i) => ({ share, at: x[i] ?? Number.NaN })))("the quantile of $share", ({ share, at }) => {
    expectNear(chiSquaredQuantile(share, freedom), at, 1e-10);
  });

  test.each(x.map((at, i) => ({ at, share: cdf[i] ?? Number.NaN })))("the share below $at", ({ at, share }) => {
    expectNear(chiSquaredCdf(at, freedom), share, 1e-11, 1e-14);
  });
});

test("one degree of freedom is a normal value squared", () => {
  for (const p of [0.5, 0.9, 0.95, 0.99]) expectNear(chiSquaredQuantile(p, 1), normalQuantile((1 + p) / 2) ** 2, 1e-12);
});

test("two degrees of freedom are exponential", () => {
  for (const p of [0.01, 0.5, 0.99]) expectNear(chiSquaredQuantile(p, 2), -2 * Math.log(1 - p), 1e-12);
});

test("the share below a quantile is the share asked for", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1e-4, max: 0.9999, noNaN: true }),
      fc.double({ min: 0.5, max: 3000, noNaN: true }),
      (p, freedom) => expectNear(chiSquaredCdf(chiSquaredQuantile(p, freedom), freedom), p, 1e-9),
    ),
  );
});

test("the share grows from 0 on", () => {
  expect(chiSquaredCdf(-1, 4)).toBe(0);
  const shares = Array.from({ length: 60 }, (_, i) => chiSquaredCdf(i / 3, 4.5));
  expect(shares).toEqual(shares.toSorted((a, b) => a - b));
  expect(new Set(shares).size).toBe(60);
});

test.each([
  [0, 5],
  [1, 5],
  [0.5, 0],
  [Number.NaN, 5],
])("a quantile of %d with %d degrees of freedom is the caller's fault", (p, freedom) => {
  expect(() => chiSquaredQuantile(p, freedom)).toThrow(RangeError);
});
