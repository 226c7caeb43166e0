import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type CapabilityIndex,
  centredIndex,
  type Estimate,
  spreadIndex,
} from "../../../src/control/capability/indices.ts";
import { expectNear } from "../../grading/near.ts";
import { normalRuns } from "../../grading/normalScatter.ts";

const estimate: Estimate = { mean: 16, sigma: 2, tests: 60, freedom: 59 };
const found = (index: CapabilityIndex) => {
  if (!index.determinable) throw new Error(index.reason);
  return index;
};

describe("the distance to the nearer limit", () => {
  test("is that to the only limit there is", () => {
    expectNear(found(centredIndex({ min: null, max: 20 }, estimate, 0.95)).value, 4 / 6, 1e-14);
    expectNear(found(centredIndex({ min: 8, max: null }, estimate, 0.95)).value, 8 / 6, 1e-14);
  });

  test("is negative where the mean is beyond the limit", () => {
    expectNear(found(centredIndex({ min: null, max: 13 }, estimate, 0.95)).value, -0.5, 1e-14);
  });

  test("is never more than the spread against the tolerance, and as much in the middle", () => {
    fc.assert(
      fc.property(fc.double({ min: 8, max: 20, noNaN: true }), (mean) => {
        const cp = found(spreadIndex({ min: 8, max: 20 }, { ...estimate, mean }, 0.95)).value;
        const cpk = found(centredIndex({ min: 8, max: 20 }, { ...estimate, mean }, 0.95)).value;
        expect(cpk).toBeLessThanOrEqual(cp + 1e-12);
        expectNear(cpk, cp * (1 - Math.abs(mean - 14) / 6), 1e-12, 1e-12);
      }),
    );
  });
});

describe("bounds", () => {
  test("of Cp are those of a standard deviation with its degrees of freedom", () => {
    const { value, lower, upper } = found(spreadIndex({ min: 8, max: 20 }, { ...estimate, freedom: 10 }, 0.95));
    expect(value).toBe(1);
    expectNear(lower, Math.sqrt(3.2469727802 / 10), 1e-9);
    expectNear(upper, Math.sqrt(20.4831773508 / 10), 1e-9);
  });

  test("of Cpk are Bissell's with n - 1 degrees of freedom", () => {
    const { value, lower, upper } = found(centredIndex({ min: 8, max: 20 }, estimate, 0.95));
    const half = 1.9599639845 * Math.sqrt(1 / (9 * 60) + value ** 2 / (2 * 59));
    expectNear(upper - value, half, 1e-9);
    expectNear(value - lower, half, 1e-9);
  });

  test("come nearer with more tests and lie farther apart for more confidence", () => {
    const wide = (tests: number, confidence: number) => {
      const { lower, upper } = found(
        spreadIndex({ min: 8, max: 20 }, { ...estimate, tests, freedom: tests - 1 }, confidence),
      );
      return upper - lower;
    };
    expect(wide(200, 0.95)).toBeLessThan(wide(50, 0.95));
    expect(wide(50, 0.99)).toBeGreaterThan(wide(50, 0.95));
  });

  describe.each([30, 100])("hold the true index as often as they say, for %d tests", (n) => {
    const runs = normalRuns(2000, n, 600 + n);
    const tolerance = { min: -3.5, max: 4.5 };
    const estimates = runs.map((run) => {
      const mean = run.reduce((sum, value) => sum + value, 0) / n;
      const sigma = Math.sqrt(run.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1));
      return { mean, sigma, tests: n, freedom: n - 1 };
    });
    const covered = (truth: number, index: (one: Estimate) => CapabilityIndex) =>
      estimates.map((one) => found(index(one))).filter(({ lower, upper }) => lower <= truth && truth <= upper).length;

    test("Pp", () => {
      const held = covered(8 / 6, (one) => spreadIndex(tolerance, one, 0.95));
      expectNear(held / 2000, 0.95, 0, 0.02);
    });

    test("Ppk", () => {
      const held = covered(3.5 / 3, (one) => centredIndex(tolerance, one, 0.95));
      expectNear(held / 2000, 0.95, 0, 0.02);
    });
  });
});

describe("there is no index", () => {
  test("without a limit", () => {
    const none = { min: null, max: null };
    const reason = "without a limit there is no capability";
    expect(spreadIndex(none, estimate, 0.95)).toEqual({ determinable: false, reason });
    expect(centredIndex(none, estimate, 0.95)).toEqual({ determinable: false, reason });
  });

  test.each([
    { min: 8, max: null },
    { min: null, max: 20 },
  ])("of spread with one limit only: $min, $max", (tolerance) => {
    expect(spreadIndex(tolerance, estimate, 0.95)).toEqual({
      determinable: false,
      reason: "it needs a limit on either side",
    });
  });
});
