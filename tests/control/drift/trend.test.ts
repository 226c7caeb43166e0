import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { mannKendall } from "../../../src/control/drift/mannKendall.ts";
import { levelAtNewest, theilSen } from "../../../src/control/drift/theilSen.ts";
import { expectNear } from "../../grading/near.ts";
import { normalRuns } from "../../grading/normalScatter.ts";
import reference from "../../published/reference/fixtures/control.json" with { type: "json" };

const some = fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 3, maxLength: 30 });

describe.each(reference.trends)("as scipy and numpy have it: $name", ({ values, ...expected }) => {
  test("slope and interval", () => {
    const { slope, lower, upper } = theilSen(values);
    expectNear(slope, expected.slope, 1e-12, 1e-15);
    expectNear(lower, expected.lower, 1e-12, 1e-15);
    expectNear(upper, expected.upper, 1e-12, 1e-15);
  });

  test("score, its variance and p", () => {
    const { score, variance, p } = mannKendall(values);
    expect(score).toBe(expected.score);
    expectNear(variance, expected.variance, 1e-12);
    expectNear(p, expected.p, 1e-9);
  });

  test("the correction for continuity moves p up", () => {
    expect(mannKendall(values).p).toBeGreaterThan(expected.pUncorrected);
  });
});

describe("Mann-Kendall", () => {
  const untied = reference.trends.flatMap(({ pExact, ...rest }) => (pExact === null ? [] : [{ ...rest, pExact }]));

  test.each(untied)("p is near the exact one of scipy: $name", ({ values, pExact }) => {
    expectNear(mannKendall(values).p, pExact, 0.03, 0.002);
  });

  test("backwards the score has the other sign and p stays", () => {
    fc.assert(
      fc.property(some, (values) => {
        const [forth, back] = [mannKendall(values), mannKendall(values.toReversed())];
        expect(back.score + forth.score).toBe(0);
        expect(back.p).toBe(forth.p);
      }),
    );
  });

  test("only the order counts: any rising scale says the same", () => {
    fc.assert(
      fc.property(some, (values) => {
        expect(mannKendall(values.map((value) => Math.exp(value / 20)))).toEqual(mannKendall(values));
      }),
    );
  });

  test("values all alike have no trend", () => {
    expect(mannKendall([4, 4, 4, 4])).toEqual({ score: 0, variance: 0, p: 1 });
  });

  test("calls about 5 % of trendless sets a trend", () => {
    const called = normalRuns(3000, 30, 77).filter((run) => mannKendall(run).p < 0.05).length;
    expectNear(called / 3000, 0.05, 0, 0.016);
  });
});

describe("Theil and Sen", () => {
  test("a straight line has its slope and no doubt", () => {
    fc.assert(
      fc.property(fc.integer({ min: -9, max: 9 }), fc.integer({ min: 3, max: 30 }), (slope, n) => {
        const line = Array.from({ length: n }, (_, i) => 5 + slope * i);
        const found = theilSen(line);
        expect([found.slope + 0, found.lower + 0, found.upper + 0]).toEqual([slope, slope, slope]);
        expectNear(levelAtNewest(line, slope), 5 + slope * (n - 1), 1e-12, 1e-12);
      }),
    );
  });

  test("a few wild values don't turn it", () => {
    const line = Array.from({ length: 30 }, (_, i) => (i % 10 === 4 ? 1000 : 2 * i));
    expect(theilSen(line).slope).toBe(2);
  });

  test("a slope added to the values is added to what is found", () => {
    fc.assert(
      fc.property(some, fc.integer({ min: -5, max: 5 }), (values, slope) => {
        const tilted = values.map((value, i) => value + slope * i);
        expectNear(theilSen(tilted).slope, theilSen(values).slope + slope, 1e-9, 1e-9);
      }),
    );
  });

  test("the slope lies in its interval, wider for more confidence", () => {
    fc.assert(
      fc.property(some, (values) => {
        const [narrow, wide] = [theilSen(values, 0.5), theilSen(values, 0.99)];
        expect(narrow.lower).toBeLessThanOrEqual(narrow.slope);
        expect(narrow.upper).toBeGreaterThanOrEqual(narrow.slope);
        expect(wide.lower).toBeLessThanOrEqual(narrow.lower);
        expect(wide.upper).toBeGreaterThanOrEqual(narrow.upper);
      }),
    );
  });

  test("holds the true slope about as often as it says", () => {
    const runs = normalRuns(1500, 25, 78);
    const held = runs.filter((run) => {
      const { lower, upper } = theilSen(run.map((value, i) => value + 0.1 * i));
      return lower <= 0.1 && 0.1 <= upper;
    });
    expectNear(held.length / 1500, 0.95, 0, 0.025);
  });

  test.each([[[]], [[5]]])("of %j is the caller's fault", (values) => {
    expect(() => theilSen(values)).toThrow(RangeError);
  });
});
