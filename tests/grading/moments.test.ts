import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { momentsOf } from "../../src/grading/moments.ts";
import { normalCdf } from "../../src/grading/normal.ts";
import reference from "../published/reference/fixtures/moments.json" with { type: "json" };
import { expectNear } from "./near.ts";

describe.each(reference.cases)("as numpy computes them: $name", ({ sizesPhi, shares, ...expected }) => {
  const sum = shares.reduce((total, share) => total + share, 0);
  const ours = momentsOf(
    sizesPhi,
    shares.map((share) => share / sum),
  );

  test.each(["mean", "sorting", "skewness", "kurtosis"] as const)("%s", (moment) => {
    expectNear(ours[moment] ?? Number.NaN, expected[moment], 1e-12, 1e-13);
  });
});

test("a finely cut normal distribution has its own mean and spread, skewness 0 and kurtosis 3", () => {
  const edges = Array.from({ length: 2001 }, (_, i) => -10 + i * 0.01);
  const shares = edges
    .slice(1)
    .map((edge, i) => normalCdf((edge - 0.5) / 1.2) - normalCdf(((edges[i] ?? 0) - 0.5) / 1.2));
  const places = edges.slice(1).map((edge) => edge - 0.005);
  const { mean, sorting, skewness, kurtosis } = momentsOf(places, shares);
  expectNear(mean, 0.5, 1e-9);
  expectNear(sorting, Math.hypot(1.2, 0.01 / Math.sqrt(12)), 1e-9);
  expectNear(skewness ?? Number.NaN, 0, 0, 1e-9);
  expectNear(kurtosis ?? Number.NaN, 3, 1e-4);
});

test("all at one place has no skewness and no kurtosis", () => {
  expect(momentsOf([1.25], [1])).toEqual({ mean: 1.25, sorting: 0, skewness: null, kurtosis: null });
});

test("turned round, the mean and the skewness change sign and the rest stays", () => {
  const places = fc.array(fc.integer({ min: -50, max: 80 }), { minLength: 2, maxLength: 20 });
  fc.assert(
    fc.property(places, (at) => {
      const shares = at.map(() => 1 / at.length);
      const [one, other] = [
        momentsOf(at, shares),
        momentsOf(
          at.map((m) => -m),
          shares,
        ),
      ];
      fc.pre(one.sorting > 1e-6);
      expectNear(other.mean, -one.mean, 1e-12, 1e-12);
      expectNear(other.sorting, one.sorting, 1e-9);
      expectNear(other.skewness ?? Number.NaN, -(one.skewness ?? Number.NaN), 1e-9, 1e-9);
      expectNear(other.kurtosis ?? Number.NaN, one.kurtosis ?? Number.NaN, 1e-9);
    }),
  );
});
