import { describe, expect, test } from "vitest";
import { type CapabilityTests, capabilityOf } from "../../../src/control/capability/capability.ts";
import { effectiveFreedom } from "../../../src/control/capability/freedom.ts";
import type { CapabilityIndex } from "../../../src/control/capability/indices.ts";
import { type ChartKind, SPREAD_RULES } from "../../../src/control/chartKind.ts";
import { normalQuantile } from "../../../src/grading/normal.ts";
import { expectNear } from "../../grading/near.ts";
import { normalRuns } from "../../grading/normalScatter.ts";

const tolerance = { min: -4, max: 4 };

function testsOf(kind: ChartKind, portions: readonly (readonly number[])[], signals = false): CapabilityTests {
  const spreads = portions.flatMap((some, i) => SPREAD_RULES[kind].spreadOf(some, portions[i - 1]?.[0] ?? null) ?? []);
  return { kind, replicates: portions[0]?.length ?? 1, portions, spreads, signals };
}

const singles = (count: number, seed: number) => normalRuns(count, 1, seed);
const figure = (index: CapabilityIndex) => (index.determinable ? index.value : Number.NaN);

describe("effective degrees of freedom", () => {
  /** Degrees of freedom of a mean range; P. B. Patnaik, Biometrika 37 (1950), table as printed by Duncan (memory). */
  test.each([
    { n: 2, samples: 1, published: 1 },
    { n: 3, samples: 1, published: 2.0 },
    { n: 4, samples: 1, published: 2.9 },
    { n: 5, samples: 1, published: 3.8 },
    { n: 5, samples: 5, published: 18.4 },
    { n: 4, samples: 10, published: 27.6 },
  ])("$samples ranges of $n have about $published", ({ n, samples, published }) => {
    expectNear(effectiveFreedom("mean-and-range", n, samples), published, 0, 0.0501);
  });

  test("a standard deviation of n portions has n - 1", () => {
    for (const n of [2, 3, 5, 12, 25]) expectNear(effectiveFreedom("mean-and-deviation", n, 1), n - 1, 1e-9);
  });

  test("moving ranges have about 0.6 each: they share tests", () => {
    expectNear(effectiveFreedom("individuals", 1, 1000) / 1000, 0.605, 0.003);
    expectNear(effectiveFreedom("mean-and-range", 2, 1000) / 1000, 0.876, 0.003);
  });

  test("are those of drawn sigmas", () => {
    const sigmas = normalRuns(6000, 21, 3).map((run) => {
      const ranges = run.slice(1).map((value, i) => Math.abs(value - (run[i] ?? Number.NaN)));
      return ranges.reduce((sum, range) => sum + range, 0) / 20;
    });
    const mean = sigmas.reduce((sum, sigma) => sum + sigma, 0) / sigmas.length;
    const square = sigmas.reduce((sum, sigma) => sum + (sigma - mean) ** 2, 0) / (sigmas.length - 1);
    expectNear(effectiveFreedom("individuals", 1, 20), mean ** 2 / (2 * square) + 0.25, 0.08);
  });
});

describe("capability of a steady process", () => {
  const found = capabilityOf(testsOf("individuals", singles(200, 9)), tolerance);

  test("is the same by the sigma within and the overall one, within their bounds", () => {
    expectNear(figure(found.cp), figure(found.pp), 0.1);
    for (const index of [found.cp, found.pp]) {
      if (!index.determinable) throw new Error(index.reason);
      expect(index.lower).toBeLessThan(4 / 3);
      expect(index.upper).toBeGreaterThan(4 / 3);
    }
  });

  test("has wider bounds by the moving ranges, which know less", () => {
    if (!found.cp.determinable || !found.pp.determinable) throw new Error("no index");
    const width = ({ lower, upper, value }: Extract<CapabilityIndex, { determinable: true }>) =>
      (upper - lower) / value;
    expect(width(found.cp)).toBeGreaterThan(1.15 * width(found.pp));
  });

  test("says what it rests on and warns of nothing", () => {
    expect(found).toMatchObject({ tests: 200, confidence: 0.95, warnings: [] });
    expect(found.normality).toMatchObject({ determinable: true, normal: true });
    expectNear(found.mean ?? Number.NaN, 0, 0, 0.3);
    expectNear(found.sigmaWithin ?? Number.NaN, 1, 0.2);
    expectNear(found.sigmaOverall ?? Number.NaN, 1, 0.2);
  });
});

test("a process that wanders has a worse overall index than from test to test", () => {
  const wandering = singles(120, 10).map(([value = 0], i) => [value + 3 * Math.sin(i / 15)]);
  const found = capabilityOf(testsOf("individuals", wandering), tolerance);
  expect(figure(found.cp)).toBeGreaterThan(1.5 * figure(found.pp));
  expect(figure(found.cpk)).toBeGreaterThan(figure(found.ppk));
});

test("of replicates the single portion counts, not the mean", () => {
  for (const kind of ["mean-and-range", "mean-and-deviation"] as const) {
    const found = capabilityOf(testsOf(kind, normalRuns(150, 4, 12)), tolerance);
    expectNear(found.sigmaWithin ?? Number.NaN, 1, 0.1);
    expectNear(found.sigmaOverall ?? Number.NaN, 1, 0.1);
    expect(found.tests).toBe(150);
  }
});

describe("a reader is warned", () => {
  /** As normal as so many values can be. */
  const evenly = (count: number) => Array.from({ length: count }, (_, i) => [normalQuantile((i + 0.5) / count)]);
  const skew = singles(80, 13).map(([value = 0]) => [Math.exp(value)]);

  test("of few tests", () => {
    expect(capabilityOf(testsOf("individuals", evenly(49)), tolerance).warnings).toEqual([
      "drawn from 49 tests, fewer than about 50: see the bounds",
    ]);
    expect(capabilityOf(testsOf("individuals", evenly(50)), tolerance).warnings).toEqual([]);
  });

  test("of values that are not normal", () => {
    const { warnings, normality } = capabilityOf(testsOf("individuals", skew), tolerance);
    expect(normality).toMatchObject({ determinable: true, normal: false });
    expect(warnings).toEqual(["the values are not normal: shares beyond a limit differ"]);
  });

  test("of signals on the chart", () => {
    const { warnings } = capabilityOf(testsOf("individuals", evenly(60), true), tolerance);
    expect(warnings).toEqual(["the chart has signals: the indices tell of the past, not of what comes"]);
  });

  test("of all of it at once", () => {
    expect(capabilityOf(testsOf("individuals", skew.slice(0, 40), true), tolerance).warnings).toHaveLength(3);
  });
});

describe("there are no indices", () => {
  test.each([0, 1])("of %d tests", (count) => {
    const found = capabilityOf(testsOf("individuals", singles(count, 1)), tolerance);
    for (const index of [found.cp, found.cpk, found.pp, found.ppk])
      expect(index).toEqual({ determinable: false, reason: "it needs two tests or more" });
    expect(found).toMatchObject({ tests: count, mean: null, sigmaWithin: null, sigmaOverall: null });
  });

  test("of values that don't scatter", () => {
    const { cp, ppk } = capabilityOf(testsOf("individuals", [[3], [3], [3]]), tolerance);
    expect([cp, ppk]).toEqual([1, 2].map(() => ({ determinable: false, reason: "the values don't scatter" })));
  });

  test("without a limit, but the sigmas are told", () => {
    const found = capabilityOf(testsOf("individuals", singles(60, 2)), { min: null, max: null });
    expect(found.cpk.determinable).toBe(false);
    expect(found.sigmaOverall).toBeGreaterThan(0);
  });

  test("of spread with one limit, but of distance", () => {
    const found = capabilityOf(testsOf("individuals", singles(60, 2)), { min: null, max: 4 });
    expect([found.cp.determinable, found.pp.determinable]).toEqual([false, false]);
    expect([found.cpk.determinable, found.ppk.determinable]).toEqual([true, true]);
  });
});
