import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CHART_KINDS, constantsFor, SPREAD_RULES } from "../../../src/control/chartKind.ts";
import { centreAndSigma, limitsFrom } from "../../../src/control/limits/chartLimits.ts";
import { expectNear } from "../../grading/near.ts";
import { normalRuns } from "../../grading/normalScatter.ts";

describe("spread of a test", () => {
  test("on a chart of individuals is the step from the test before; the first has none", () => {
    const { spreadOf } = SPREAD_RULES.individuals;
    expect(spreadOf([7], null)).toBeNull();
    expect(spreadOf([7], 9.5)).toBe(2.5);
  });

  test("is the range of its portions", () => {
    expect(SPREAD_RULES["mean-and-range"].spreadOf([4, 9, 5], 100)).toBe(5);
  });

  test("is the standard deviation of its portions", () => {
    expect(SPREAD_RULES["mean-and-deviation"].spreadOf([4, 6, 8], null)).toBe(2);
  });
});

describe("limits are those of the usual factors", () => {
  const spreads = [3, 5, 4];
  const values = [70, 73, 76];

  test("individuals: 2.66 and 3.267 times the mean moving range", () => {
    const limits = limitsFrom("individuals", 1, centreAndSigma("individuals", 1, { values, spreads }));
    expectNear(limits.upper, 73 + 2.66 * 4, 1e-3);
    expectNear(limits.lower, 73 - 2.66 * 4, 1e-3);
    expectNear(limits.spread.centre, 4, 1e-14);
    expectNear(limits.spread.upper, 3.267 * 4, 1e-3);
    expect(limits.spread.lower).toBe(0);
  });

  test.each([2, 3, 5, 7, 10])("means of %d: A2, D3 and D4 times the mean range", (n) => {
    const { A2, D3, D4 } = constantsFor("mean-and-range", n);
    const limits = limitsFrom("mean-and-range", n, centreAndSigma("mean-and-range", n, { values, spreads }));
    expectNear(limits.upper - 73, A2 * 4, 1e-13);
    expectNear(73 - limits.lower, A2 * 4, 1e-13);
    expectNear(limits.spread.lower, D3 * 4, 1e-13);
    expectNear(limits.spread.upper, D4 * 4, 1e-13);
  });

  test.each([2, 3, 5, 7, 10])("means of %d: A3, B3 and B4 times the mean deviation", (n) => {
    const { A3, B3, B4 } = constantsFor("mean-and-deviation", n);
    const limits = limitsFrom("mean-and-deviation", n, centreAndSigma("mean-and-deviation", n, { values, spreads }));
    expectNear(limits.upper - 73, A3 * 4, 1e-13);
    expectNear(limits.spread.lower, B3 * 4, 1e-13);
    expectNear(limits.spread.upper, B4 * 4, 1e-13);
  });
});

describe.each(CHART_KINDS)("%s", (kind) => {
  const replicates = kind === "individuals" ? 1 : 4;
  const tests = normalRuns(3000, replicates, 5);
  const spreads = tests.flatMap(
    (portions, i) => SPREAD_RULES[kind].spreadOf(portions, tests[i - 1]?.[0] ?? null) ?? [],
  );
  const values = tests.map((portions) => portions.reduce((sum, value) => sum + value, 0) / replicates);
  const found = centreAndSigma(kind, replicates, { values, spreads });

  test("finds the sigma of what it plots from the spread alone", () => {
    expectNear(found.sigma, 1 / Math.sqrt(replicates), 0.05);
    expectNear(found.centre, 0, 0, 0.08);
  });

  test("alarms falsely about once in 370", () => {
    const { lower, upper } = limitsFrom(kind, replicates, found);
    const beyond = values.filter((value) => value < lower || value > upper).length;
    expect(beyond).toBeGreaterThanOrEqual(1);
    expect(beyond).toBeLessThanOrEqual(20);
  });

  test("moves with the values and widens with their scatter", () => {
    fc.assert(
      fc.property(fc.integer({ min: -500, max: 500 }), fc.integer({ min: 1, max: 50 }), (by, times) => {
        const moved = centreAndSigma(kind, replicates, {
          values: values.slice(0, 50).map((value) => times * value + by),
          spreads: spreads.slice(0, 50).map((spread) => times * spread),
        });
        const before = centreAndSigma(kind, replicates, { values: values.slice(0, 50), spreads: spreads.slice(0, 50) });
        const [ours, expected] = [limitsFrom(kind, replicates, moved), limitsFrom(kind, replicates, before)];
        expectNear(ours.upper, times * expected.upper + by, 1e-9, 1e-9);
        expectNear(ours.lower, times * expected.lower + by, 1e-9, 1e-9);
        expectNear(ours.spread.upper, times * expected.spread.upper, 1e-9);
      }),
    );
  });
});
