import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { forecastOf, USUAL_FORECAST } from "../../../src/control/drift/forecast.ts";
import { expectNear } from "../../grading/near.ts";
import { normalRuns } from "../../grading/normalScatter.ts";

const line = (n: number, from: number, slope: number) => Array.from({ length: n }, (_, i) => from + slope * i);
const noise = normalRuns(1, 200, 21)[0] ?? [];
const noisy = (n: number, from: number, slope: number, sigma: number) =>
  line(n, from, slope).map((value, i) => value + sigma * (noise[i] ?? 0));
const reachOf = (...given: Parameters<typeof forecastOf>) => {
  const { reach } = forecastOf(...given);
  if (!reach.determinable) throw new Error(reach.reason);
  return reach;
};
const trendOf = (...given: Parameters<typeof forecastOf>) => {
  const { trend } = forecastOf(...given);
  if (!trend.determinable) throw new Error(trend.reason);
  return trend;
};

describe("a line without scatter", () => {
  test("that rises reaches the upper limit when it does", () => {
    expect(forecastOf(line(20, 700, 2), { min: 600, max: 758 })).toMatchObject({
      tests: 20,
      trend: { direction: "rising", slopePerTest: 2, level: 738 },
      reach: { side: "max", limit: 758, tests: 10, earliest: 10, latest: 10 },
    });
  });

  test("that falls reaches the lower limit when it does", () => {
    expect(forecastOf(line(20, 50, -0.5), { min: 30.5, max: 60 })).toMatchObject({
      trend: { direction: "falling", slopePerTest: -0.5, level: 40.5 },
      reach: { side: "min", limit: 30.5, tests: 20 },
    });
  });
});

describe("with scatter", () => {
  const values = noisy(40, 700, 0.5, 4);
  const { tests, earliest, latest } = reachOf(values, { min: null, max: 740 });

  test("the range holds the foretold and the true number of tests", () => {
    expect(earliest).toBeLessThan(tests);
    expect(latest).toBeGreaterThan(tests);
    expect(earliest).toBeLessThan(41);
    expect(latest).toBeGreaterThan(41);
  });

  test("the slope is told with its interval and its p", () => {
    const { slopePerTest, lowerPerTest, upperPerTest, p } = trendOf(values, { min: null, max: null });
    expect(lowerPerTest).toBeLessThan(slopePerTest);
    expect(upperPerTest).toBeGreaterThan(slopePerTest);
    expect(p).toBeLessThan(0.05);
  });

  test("the same drift downwards says the same of the lower limit", () => {
    const mirrored = reachOf(
      values.map((value) => 1400 - value),
      { min: 660, max: null },
    );
    expectNear(mirrored.tests, tests, 1e-9);
    expectNear(mirrored.earliest, earliest, 1e-9);
    expectNear(mirrored.latest ?? Number.NaN, latest ?? Number.NaN, 1e-9);
  });

  test("place and scale of the values change nothing", () => {
    fc.assert(
      fc.property(fc.integer({ min: -500, max: 500 }), fc.integer({ min: 1, max: 20 }), (by, times) => {
        const moved = reachOf(
          values.map((value) => times * value + by),
          { min: null, max: times * 740 + by },
        );
        expectNear(moved.tests, tests, 1e-7);
        expectNear(moved.latest ?? Number.NaN, latest ?? Number.NaN, 1e-7);
      }),
    );
  });

  test("the true moment lies in the range about as often as the slope in its interval", () => {
    const runs = normalRuns(600, 40, 22).map((run) => run.map((value, i) => 700 + 0.4 * i + 3 * value));
    const found = runs.map((run) => forecastOf(run, { min: null, max: 735.6 }).reach);
    const told = found.filter((reach) => reach.determinable);
    const held = told.filter((reach) => reach.earliest <= 50 && (reach.latest ?? Number.POSITIVE_INFINITY) >= 50);
    expect(told.length).toBeGreaterThan(580);
    expect(held.length / told.length).toBeGreaterThan(0.88);
  });
});

test("values that are rounded may leave it open when the limit comes at the latest", () => {
  const rounded = [5, 5, 5, 5, 6, 5, 5, 6, 6, 5, 6, 6, 6, 7, 6, 7, 6, 7, 7, 6].map((value) => value / 10);
  const { latest, tests } = reachOf(rounded, { min: null, max: 0.9 });
  expect(tests).toBeGreaterThan(0);
  expect(latest === null || latest >= tests).toBe(true);
  const mostlyAlike = [1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2];
  expect(reachOf(mostlyAlike, { min: null, max: 3 }).latest).toBeNull();
});

describe("nothing is foretold", () => {
  const reasons = (...given: Parameters<typeof forecastOf>) => {
    const { trend, reach } = forecastOf(...given);
    return [trend, reach].map((one) => (one.determinable ? null : one.reason));
  };

  test("of fewer than ten tests", () => {
    expect(reasons(line(9, 1, 1), { min: null, max: 20 })).toEqual([
      "a slope needs 10 tests, there are 9",
      "without a drift no limit comes nearer",
    ]);
  });

  test("where chance alone does it", () => {
    const [trend, reach] = reasons(noisy(40, 700, 0, 5), { min: 690, max: 710 });
    expect(trend).toMatch(/^no drift: chance alone does this \(p \d[.]\d\d\)$/);
    expect(reach).toBe("without a drift no limit comes nearer");
  });

  test("in 95 of 100 steady processes", () => {
    const told = normalRuns(1000, 50, 23).filter((run) => forecastOf(run, { min: -4, max: 4 }).trend.determinable);
    expectNear(told.length / 1000, 0.05, 0, 0.028);
  });

  test("where most tests found the same", () => {
    const mostly = [5, 5, 5, 6, 5, 5, 7, 5, 5, 6, 6, 5, 7, 7];
    expect(reasons(mostly, { min: null, max: 9 })[0]).toBe("no drift: most tests found the same");
  });

  test("towards a side without a limit, though the drift is told", () => {
    expect(reasons(line(20, 1, 1), { min: 0, max: null })).toEqual([
      null,
      "it is rising and there is no limit on that side",
    ]);
    expect(reasons(line(20, 1, -1), { min: null, max: 9 })[1]).toBe("it is falling and there is no limit on that side");
  });

  test("where the line is at the limit already", () => {
    const words = "the line through the newest tests is at the limit already";
    expect(reasons(line(20, 1, 1), { min: null, max: 20 })).toEqual([null, words]);
    expect(reasons(line(20, 1, 1), { min: null, max: 12 })).toEqual([null, words]);
  });

  test("farther ahead than five times the tests that it is drawn from", () => {
    expect(reasons(line(20, 0, 1), { min: null, max: 119 })).toEqual([null, null]);
    expect(reasons(line(20, 0, 1), { min: null, max: 120 })).toEqual([null, "the limit is more than 100 tests away"]);
  });

  test("of no tests at all", () => {
    expect(reasons([], { min: 0, max: 1 })[0]).toBe("a slope needs 10 tests, there are 0");
  });
});

test("only the newest tests count", () => {
  const values = [...line(60, 500, -3), ...line(50, 700, 2)];
  expect(forecastOf(values, { min: null, max: 818 })).toMatchObject({ tests: 50, reach: { tests: 10 } });
  const fewer = forecastOf(values, { min: null, max: 818 }, { ...USUAL_FORECAST, newest: 20 });
  expect(fewer).toMatchObject({ tests: 20, reach: { tests: 10 } });
});
