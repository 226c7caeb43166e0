import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CHART_KINDS } from "../../src/control/chartKind.ts";
import { chartOf } from "../../src/control/chartOf.ts";
import type { ControlChart } from "../../src/control/controlChart.ts";
import { NELSON_RULES } from "../../src/control/rules/rules.ts";
import { undetermined } from "../../src/record/determination.ts";
import { expectNear } from "../grading/near.ts";
import { normalRuns } from "../grading/normalScatter.ts";
import { numberOf } from "../grading/stack.ts";
import { hour, hourly, hourlyPortions } from "./hourly.ts";

const steady = (normalRuns(1, 120, 4)[0] ?? []).map((value) => 700 + 10 * value);
const signalsOf = ({ points }: ControlChart) =>
  points.flatMap(({ index, signals }) => signals.map(({ rule }) => `${index} ${rule}`));

describe("a chart of individuals", () => {
  const chart = chartOf(hourly(steady), { unit: "um" });

  test("has limits from its first 25 tests", () => {
    const first = steady.slice(0, 25);
    const ranges = first.slice(1).map((value, i) => Math.abs(value - (first[i] ?? Number.NaN)));
    const meanRange = ranges.reduce((sum, range) => sum + range, 0) / 24;
    const mean = first.reduce((sum, value) => sum + value, 0) / 25;
    expectNear(numberOf(chart.centre), mean, 1e-12);
    expectNear(numberOf(chart.sigma), (meanRange * Math.sqrt(Math.PI)) / 2, 1e-8);
    expectNear(numberOf(chart.upper) - mean, 3 * numberOf(chart.sigma), 1e-12);
    expectNear(mean - numberOf(chart.lower), 3 * numberOf(chart.sigma), 1e-12);
    expect(chart.centre).toMatchObject({ unit: "um" });
    expect(chart.points.map(({ inBaseline }) => inBaseline)).toEqual(steady.map((_, i) => i < 25));
  });

  test("shows every test with its moving range; the first has none", () => {
    expect(chart.points.map(({ value }) => value)).toEqual(steady);
    expect(chart.points[0]?.spread).toBeNull();
    expect(chart.points[7]?.spread).toBe(Math.abs((steady[7] ?? 0) - (steady[6] ?? 0)));
    expect(chart).toMatchObject({ chart: "individuals", replicates: 1, spreadName: "moving range" });
  });

  test("has an average and sums for every test", () => {
    expect(chart.ewma.points.map(({ index }) => index)).toEqual(steady.map((_, i) => i));
    expect(chart.cusum.points.map(({ index }) => index)).toEqual(steady.map((_, i) => i));
    expect(chart.ewma).toMatchObject({ lambda: 0.2, widthSigmas: 3, limits: "start-up" });
    expect(chart.cusum).toMatchObject({ slackSigmas: 0.5, limitSigmas: 5 });
  });

  test("is plain JSON", () => expect(JSON.parse(JSON.stringify(chart))).toEqual(chart));
});

describe("a planted shift is seen", () => {
  const shifted = steady.map((value, i) => (i < 60 ? value : value + 60));
  const chart = chartOf(hourly(shifted), { tolerance: { min: 640, max: 760 } });

  test("by a value beyond its limit, in words", () => {
    const first = chart.points.slice(60).find(({ signals }) => signals.some(({ rule }) => rule === "1-beyond-3-sigma"));
    expect(first?.index).toBeLessThan(63);
    expect(first?.signals.map(({ words }) => words)).toContain("1 beyond 3 sigma, above the centre line");
  });

  test("by the average and the sums, at the place of the test", () => {
    const average = chart.ewma.points.find(({ index, signal }) => index >= 60 && signal !== null);
    const sum = chart.cusum.points.find(({ index, signal }) => index >= 60 && signal !== null);
    expect(average?.index).toBeLessThan(64);
    expect(average?.signal).toEqual({
      index: average?.index,
      rule: "ewma",
      side: "above",
      words: "weighted average above its limit",
    });
    expect(sum?.signal).toMatchObject({ index: sum?.index, rule: "cusum", side: "above" });
    expect(sum?.since).toBeGreaterThanOrEqual(54);
    expect(sum?.since).toBeLessThanOrEqual(61);
  });

  test("and capability warns of it", () => {
    expect(chart.capability.warnings).toContain(
      "the chart has signals: the indices tell of the past, not of what comes",
    );
  });
});

describe("run rules", () => {
  const run = [...steady.slice(0, 25), ...Array.from({ length: 9 }, (_, i) => 703 + (i % 2) / 10)];
  const of = (choice: Parameters<typeof chartOf>[1]) =>
    signalsOf(chartOf(hourly(run), choice)).filter((one) => !one.startsWith("1"));

  test("are those that are switched on", () => {
    expect(of({ rules: ["8-on-one-side"] }).filter((one) => one.includes("8-on"))).toContain("32 8-on-one-side");
    expect(of({ rules: ["9-on-one-side"] })).toContain("33 9-on-one-side");
    expect(of({ rules: NELSON_RULES }).some((one) => one.includes("8-on"))).toBe(false);
    expect(of({ rules: [], spreadSignals: false })).toEqual([]);
  });
});

test("a jump of the spread signals, and can be switched off", () => {
  const jumpy = steady.map((value, i) => (i === 50 ? 700 - 60 : i === 51 ? 700 + 60 : value));
  const words = (chart: ControlChart) => chart.points[51]?.signals.map((signal) => signal.words) ?? [];
  expect(words(chartOf(hourly(jumpy)))).toContain("moving range above its limit");
  expect(words(chartOf(hourly(jumpy), { spreadSignals: false }))).not.toContain("moving range above its limit");
});

describe("outliers of the baseline", () => {
  const wild = steady.slice(0, 40).map((value, i) => (i === 12 ? 790 : value));
  const originOf = (chart: ControlChart) => {
    const limits = chart.segments[0]?.limits;
    if (!limits?.determinable || limits.origin.from !== "baseline") throw new Error("no baseline");
    return limits.origin;
  };

  test("are shown and still reckoned with", () => {
    const chart = chartOf(hourly(wild));
    expect(originOf(chart).outliers).toContain(12);
    expect(chart.points[12]).toMatchObject({ inBaseline: true, leftOut: false });
  });

  test("that are left out leave the limits where they were without them", () => {
    const chart = chartOf(hourly(wild), { leftOut: ["T12"] });
    const without = [...wild.slice(0, 12), ...wild.slice(13, 26)];
    expectNear(numberOf(chart.centre), without.reduce((sum, value) => sum + value, 0) / 25, 1e-12);
    expect(originOf(chart).indices).toEqual(Array.from({ length: 26 }, (_, i) => i).filter((i) => i !== 12));
    expect(originOf(chart).outliers).not.toContain(12);
    expect(originOf(chart).outliers).not.toContain(13);
    expect(chart.points[12]).toMatchObject({ inBaseline: false, leftOut: true, value: 790 });
  });

  test("that are left out give no moving range to either neighbour", () => {
    const ranges = wild
      .slice(1, 26)
      .map((value, i) => Math.abs(value - (wild[i] ?? Number.NaN)))
      .filter((_, i) => i !== 11 && i !== 12);
    const meanRange = ranges.reduce((sum, range) => sum + range, 0) / ranges.length;
    const chart = chartOf(hourly(wild), { leftOut: ["T12"] });
    expectNear(numberOf(chart.sigma), (meanRange * Math.sqrt(Math.PI)) / 2, 1e-8);
  });

  test("that are left out are judged each by itself and break no run, average or sum", () => {
    const high = wild.map((value, i) => (i < 30 ? value : 745));
    const chart = chartOf(hourly([...high, 1500, 745, 745]), { leftOut: ["T12", "T40"] });
    const without = chartOf(hourly([...high, 745, 745]), { leftOut: ["T12"] });
    expect(chart.points[40]?.signals.map(({ rule }) => rule)).toEqual(["1-beyond-3-sigma"]);
    expect(chart.points[40]?.spread).toBeNull();
    expect(chart.points[41]?.spread).toBeNull();
    expect(chart.points[42]?.signals.map(({ rule }) => rule)).toEqual(
      without.points[41]?.signals.map(({ rule }) => rule),
    );
    expect(chart.ewma.points.at(-1)?.ewma).toBe(without.ewma.points.at(-1)?.ewma);
    expect(chart.cusum.points.at(-1)).toEqual({
      ...without.cusum.points.at(-1),
      index: 42,
      signal: { ...without.cusum.points.at(-1)?.signal, index: 42 },
    });
    expect(chart.ewma.points.some(({ index }) => index === 40)).toBe(false);
  });

  test("that are left out count for nothing in capability and forecast", () => {
    const chart = chartOf(hourly(wild), { leftOut: ["T12"] });
    expect([chart.capability.tests, chart.forecast.tests]).toEqual([39, 39]);
  });
});

describe("a logged change", () => {
  const changed = steady.map((value, i) => (i < 60 ? value : value + 50));
  const restarts = [{ at: hour(59.5), why: "deck changed" }];
  const chart = chartOf(hourly(changed), { restarts });

  test("parts the chart in segments, told with the change", () => {
    expect(chart.segments.map(({ from, to, why }) => [from, to, why])).toEqual([
      [0, 59, null],
      [60, 119, "deck changed"],
    ]);
    expect(chart.points[59]?.segment).toBe(0);
    expect(chart.points[60]?.segment).toBe(1);
  });

  test("gives each segment the limits that it would have alone", () => {
    const alone = chartOf(hourly(changed.slice(60)));
    expect(chart.centre).toEqual(alone.centre);
    expect(chart.upper).toEqual(alone.upper);
    const [first] = chart.segments;
    if (!first?.limits.determinable) throw new Error("no limits");
    expectNear(first.limits.limits.centre, numberOf(chartOf(hourly(changed.slice(0, 60))).centre), 1e-12);
  });

  test("starts rules, ranges, averages and sums anew", () => {
    const alone = chartOf(hourly(changed.slice(60)));
    expect(chart.points[60]?.spread).toBeNull();
    const rest = signalsOf(chart).filter((one) => Number.parseInt(one, 10) >= 60);
    const shifted = signalsOf(alone).map((one) => one.replace(/^\d+/, (place) => String(Number(place) + 60)));
    expect(rest).toEqual(shifted);
    expect(chart.ewma.points.slice(60).map(({ ewma }) => ewma)).toEqual(alone.ewma.points.map(({ ewma }) => ewma));
    expect(chart.cusum.points[60]?.since ?? 60).toBe(60);
    expect(chart.capability.tests).toBe(60);
  });

  test("without enough tests after it leaves the newest without limits, and says so", () => {
    const young = chartOf(hourly(changed), { restarts: [{ at: hour(114.5), why: "feed rate" }] });
    const reason = "limits need 8 tests, there are 5";
    expect([young.centre, young.lower, young.upper, young.sigma]).toEqual(
      [1, 2, 3, 4].map(() => ({ determinable: false, reason })),
    );
    expect(young.segments[1]?.limits).toEqual({ determinable: false, reason });
    expect(young.ewma.points).toHaveLength(115);
    expect(young.points).toHaveLength(120);
    expect(young.points.slice(115).flatMap(({ signals }) => signals)).toEqual([]);
  });

  test("shows a drift of the newest segment only", () => {
    const drifting = steady.map((value, i) => (i < 60 ? value + 3 * i : value));
    const tolerance = { min: 600, max: 900 };
    expect(chartOf(hourly(drifting.slice(0, 60)), { tolerance }).forecast.trend.determinable).toBe(true);
    expect(chartOf(hourly(drifting), { tolerance, restarts }).forecast.trend.determinable).toBe(false);
  });
});

test("limits of fewer tests than the baseline asks for are told to be on the move", () => {
  expect(chartOf(hourly(steady.slice(0, 12))).notes).toEqual(["the limits come from 12 of 25 tests and still move"]);
  expect(chartOf(hourly(steady.slice(0, 25))).notes).toEqual([]);
});

describe("there are no limits", () => {
  const reasonOf = (values: readonly (number | null)[], choice?: Parameters<typeof chartOf>[1]) => {
    const { centre } = chartOf(hourly(values), choice);
    return centre.determinable ? null : centre.reason;
  };

  test("without tests", () => {
    expect(reasonOf([])).toBe("there are no tests to chart");
    expect(reasonOf([null, null])).toBe("there are no tests to chart");
    expect(chartOf([]).segments).toEqual([]);
  });

  test("of seven tests", () => expect(reasonOf(steady.slice(0, 7))).toBe("limits need 8 tests, there are 7"));

  test("of tests that all found the same", () => {
    expect(reasonOf(Array.from({ length: 30 }, () => 99.9))).toBe("the tests don't scatter: no limits");
  });

  test("of one test, even if fewer than two are asked for", () => {
    expect(reasonOf([5], { baseline: { tests: 25, least: 1 } })).toBe("limits need 2 tests, there are 1");
  });

  test("where no two tests in a row are reckoned with", () => {
    const every = steady.slice(0, 20).flatMap((_, i) => (i % 2 ? [`T${i}`] : []));
    expect(reasonOf(steady.slice(0, 20), { leftOut: every })).toBe(
      "limits need two tests in a row that are not left out",
    );
  });
});

test("tests without a value are kept apart and leave no gap in the chart", () => {
  const points = hourly(steady.slice(0, 30)).map((point, i) =>
    i === 4 ? { ...point, value: undetermined("d5 is finer than the finest sieve") } : point,
  );
  const chart = chartOf(points);
  expect(chart.setAside).toEqual([{ at: hour(4), testId: "T4", reason: "d5 is finer than the finest sieve" }]);
  expect(chart.points.map(({ index }) => index)).toEqual(Array.from({ length: 29 }, (_, i) => i));
  expect(chart.points[4]?.testId).toBe("T5");
});

describe.each(CHART_KINDS)("the laws of a chart: %s", (kind) => {
  const portions = normalRuns(60, kind === "individuals" ? 1 : 3, 8).map((run) => run.map((value) => 50 + value));
  const charted = (change: (value: number) => number) => {
    const changed = portions.map((some) => some.map(change));
    const points = kind === "individuals" ? hourly(changed.map(([value = null]) => value)) : hourlyPortions(changed);
    return chartOf(points, { chart: kind, tolerance: { min: null, max: null } });
  };
  const plain = charted((value) => value);
  const lines = (chart: ControlChart) => [chart.centre, chart.lower, chart.upper].map(numberOf);

  test("values shifted by c shift the lines by c and change no signal", () => {
    fc.assert(
      fc.property(fc.integer({ min: -1000, max: 1000 }), (by) => {
        const moved = charted((value) => value + by);
        for (const [i, line] of lines(moved).entries())
          expectNear(line, (lines(plain)[i] ?? Number.NaN) + by, 1e-9, 1e-9);
        expectNear(numberOf(moved.sigma), numberOf(plain.sigma), 1e-9);
        expect(signalsOf(moved)).toEqual(signalsOf(plain));
      }),
      { numRuns: 20 },
    );
  });

  test("values times c multiply the lines by c and change no signal", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1000, noNaN: true }), (times) => {
        const scaled = charted((value) => value * times);
        for (const [i, line] of lines(scaled).entries())
          expectNear(line, (lines(plain)[i] ?? Number.NaN) * times, 1e-9);
        expect(signalsOf(scaled)).toEqual(signalsOf(plain));
        expect(scaled.cusum.points.map(({ side }) => side)).toEqual(plain.cusum.points.map(({ side }) => side));
      }),
      { numRuns: 20 },
    );
  });

  test("values turned about 50 turn the lines", () => {
    const turned = charted((value) => 100 - value);
    expectNear(numberOf(turned.upper), 100 - numberOf(plain.lower), 1e-12);
    expectNear(numberOf(turned.centre), 100 - numberOf(plain.centre), 1e-12);
  });

  test("with lambda 1 the average is the chart itself", () => {
    const points = kind === "individuals" ? hourly(portions.map(([value = null]) => value)) : hourlyPortions(portions);
    const chart = chartOf(points, { chart: kind, ewma: { lambda: 1, widthSigmas: 3, limits: "start-up" } });
    for (const [i, { ewma, lower, upper }] of chart.ewma.points.entries()) {
      expectNear(ewma, chart.points[i]?.value ?? Number.NaN, 1e-14);
      expectNear(lower, numberOf(chart.lower), 1e-12);
      expectNear(upper, numberOf(chart.upper), 1e-12);
    }
  });
});
