import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { normalCdf, normalQuantile } from "../../src/grading/normal.ts";
import reference from "../published/reference/fixtures/normal.json" with { type: "json" };
import { expectNear } from "./near.ts";

const share = fc.double({ min: 1e-300, max: 1 - 1e-12, noNaN: true });

describe("normalCdf", () => {
  test("agrees with scipy.special.ndtr to 1e-13 relative from -37 to 8", () => {
    reference.cdf.z.forEach((z, i) => {
      expectNear(normalCdf(z), reference.cdf.p[i] ?? Number.NaN, 1e-13);
    });
  });

  test("never falls as z grows", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -40, max: 40, noNaN: true }),
        fc.double({ min: 1e-9, max: 1, noNaN: true }),
        (z, step) => {
          expect(normalCdf(z + step)).toBeGreaterThanOrEqual(normalCdf(z));
        },
      ),
    );
  });

  test("the two sides add to 1", () => {
    for (const z of [0, 0.1, 0.66, 0.67, 1, 3, 5.6, 5.7, 8, 40]) expectNear(normalCdf(z) + normalCdf(-z), 1, 1e-15);
  });
});

describe("normalQuantile", () => {
  test("agrees with scipy.special.ndtri to 2e-15, tails included", () => {
    reference.quantile.p.forEach((p, i) => {
      expectNear(normalQuantile(p), reference.quantile.z[i] ?? Number.NaN, 2e-15, 1e-15);
    });
  });

  test("is undone by normalCdf", () => {
    fc.assert(fc.property(share, (p) => expectNear(normalCdf(normalQuantile(p)), p, 1e-12)));
  });

  test.each([0, 1, -0.1, 1.1, Number.NaN, Number.POSITIVE_INFINITY])("refuses %d as a fault of the caller", (p) => {
    expect(() => normalQuantile(p)).toThrow(RangeError);
  });
});
