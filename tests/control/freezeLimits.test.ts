import { describe, expect, test } from "vitest";
import { type ChartChoice, USUAL_CHOICE } from "../../src/control/chartChoice.ts";
import { chartOf } from "../../src/control/chartOf.ts";
import type { ControlChart } from "../../src/control/controlChart.ts";
import { freezeLimits } from "../../src/control/freezeLimits.ts";
import type { FrozenLimits } from "../../src/control/limits/frozenLimits.ts";
import { normalRuns } from "../grading/normalScatter.ts";
import { hour, hourly, hourlyPortions } from "./hourly.ts";

const values = (normalRuns(1, 100, 6)[0] ?? []).map((value) => 80 + value);
const points = hourly(values);
const frozenFrom = (chart: ControlChart): FrozenLimits => {
  const found = freezeLimits(chart);
  if (!found.ok) throw new Error(found.reason);
  return found.value;
};
const originsOf = ({ segments }: ControlChart) =>
  segments.map(({ limits }) => (limits.determinable ? limits.origin.from : null));
const linesOf = ({ centre, lower, upper, sigma }: ControlChart) => [centre, lower, upper, sigma];

describe("limits are frozen", () => {
  const before = chartOf(points.slice(0, 40), { leftOut: ["T3"] });
  const frozen = frozenFrom(before);

  test("as a plain value that says what they come from", () => {
    expect(JSON.parse(JSON.stringify(frozen))).toEqual(frozen);
    expect(frozen).toMatchObject({
      chart: "individuals",
      replicates: 1,
      tests: 25,
      sinceAt: hour(0),
      firstTestId: "T0",
      lastTestId: "T25",
      leftOut: ["T3"],
    });
  });

  test("and hold for every later chart, whatever is tested or left out", () => {
    for (const count of [41, 70, 100]) {
      const later = chartOf(points.slice(0, count), { frozen: [frozen] });
      expect(linesOf(later)).toEqual(linesOf(before));
      expect(originsOf(later)).toEqual(["frozen"]);
    }
  });

  test("and hold for a chart that shows none of the tests behind them", () => {
    const window = chartOf(points.slice(60), { frozen: [frozen] });
    expect(linesOf(window)).toEqual(linesOf(before));
    expect(window.points.some(({ inBaseline }) => inBaseline)).toBe(false);
    expect(window.notes).toEqual([]);
  });

  test("and hold for a chart of too few tests for limits of its own", () => {
    expect(linesOf(chartOf(points.slice(97), { frozen: [frozen] }))).toEqual(linesOf(before));
  });

  test("and are the same when frozen again", () => {
    expect(frozenFrom(chartOf(points, { frozen: [frozen] }))).toEqual(frozen);
  });
});

describe("frozen limits", () => {
  const frozen = frozenFrom(chartOf(points.slice(0, 30)));
  const restarts = [{ at: hour(49.5), why: "deck changed" }];

  test("end with the next logged change", () => {
    const chart = chartOf(points, { frozen: [frozen], restarts });
    expect(originsOf(chart)).toEqual(["frozen", "baseline"]);
  });

  test("don't come back in a window that begins after the change", () => {
    expect(originsOf(chartOf(points.slice(60), { frozen: [frozen], restarts }))).toEqual(["baseline"]);
  });

  test("of a later stretch leave the stretch before alone", () => {
    const second = frozenFrom(chartOf(points.slice(0, 90), { restarts }));
    expect(second.firstTestId).toBe("T50");
    expect(originsOf(chartOf(points, { frozen: [second], restarts }))).toEqual(["baseline", "frozen"]);
    expect(originsOf(chartOf(points, { frozen: [second, frozen], restarts }))).toEqual(["frozen", "frozen"]);
    expect(originsOf(chartOf(points.slice(0, 45), { frozen: [second] }))).toEqual(["baseline"]);
  });

  test("of the same stretch give way to those drawn from later tests", () => {
    const later = { ...frozen, centre: 81, sinceAt: hour(40), firstTestId: "T40" };
    for (const both of [
      [frozen, later],
      [later, frozen],
    ])
      expect(chartOf(points, { frozen: both }).centre).toMatchObject({ value: 81 });
  });

  test("for another kind of chart or number of portions are not used, and that is told", () => {
    const portions = normalRuns(30, 3, 2);
    const ofThree: Partial<ChartChoice> = { chart: "mean-and-range" };
    const three = frozenFrom(chartOf(hourlyPortions(portions), ofThree));
    const pairs = hourlyPortions(portions.map((some) => some.slice(0, 2)));
    const note = "1 frozen for another kind of chart or another number of portions: not used";
    expect(chartOf(points, { frozen: [three] }).notes).toEqual([note]);
    const ofPairs = chartOf(pairs, { ...ofThree, frozen: [three] });
    expect(ofPairs.notes).toEqual([note]);
    expect(originsOf(ofPairs)).toEqual(["baseline"]);
    const again = chartOf(hourlyPortions(portions), { ...ofThree, frozen: [three] });
    expect(originsOf(again)).toEqual(["frozen"]);
    expect(again.notes).toEqual([]);
  });
});

test("limits frozen for replicates give the ranges their limits, too", () => {
  const portions = normalRuns(30, 4, 3);
  const chart = chartOf(hourlyPortions(portions), { chart: "mean-and-deviation" });
  const again = chartOf(hourlyPortions(portions), { chart: "mean-and-deviation", frozen: [frozenFrom(chart)] });
  const spreadOf = ({ segments }: ControlChart) => {
    const limits = segments[0]?.limits;
    return limits?.determinable ? limits.limits : null;
  };
  expect(spreadOf(again)).toEqual(spreadOf(chart));
  expect(spreadOf(again)?.spread.upper).toBeGreaterThan(0);
});

test("nothing is frozen without limits", () => {
  expect(freezeLimits(chartOf([]))).toEqual({ ok: false, reason: "there are no tests to draw limits from" });
  expect(freezeLimits(chartOf(points.slice(0, 3)))).toEqual({ ok: false, reason: "limits need 8 tests, there are 3" });
});

test("the usual choice names no limit, no change and nothing frozen", () => {
  expect(USUAL_CHOICE).toMatchObject({ restarts: [], frozen: [], leftOut: [], tolerance: { min: null, max: null } });
});
