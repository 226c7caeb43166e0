import { describe, expect, test } from "vitest";
import { CHART_KINDS } from "../../src/control/chartKind.ts";
import { freezeLimits } from "../../src/control/freezeLimits.ts";
import { CHARTED_AS } from "../../src/record/shiftEvents.ts";
import {
  apertureChanges,
  changeWords,
  frozenLimits,
  marksOf,
  restartsOf,
  trendChartOf,
  trendPoints,
  USUAL_SWITCHES,
} from "../../src/shift/trend.ts";
import { figuresOf } from "../../src/shift/trendFigure.ts";
import { adjusted, frozen, hourAt, read, rowAt, rowsOf, SAND, STEADY } from "./trendWorld.ts";

const D50 = figuresOf(SAND).find(({ on }) => on === "percentileUm@50") ?? {
  on: "",
  label: "",
  unit: "",
  min: null,
  max: null,
  standing: "other" as const,
};
const chart = (rows = rowsOf(STEADY), more = {}, switches = USUAL_SWITCHES) =>
  trendChartOf(read(rows, more), D50, "Dryer 1", switches);

describe("tests as points of a trend", () => {
  test("are one a test, in order, with the figure", () =>
    expect(trendPoints(rowsOf([740, 750]), D50)).toEqual([
      { at: hourAt(0), testId: "T0", value: { determinable: true, value: 740, unit: "um" } },
      { at: hourAt(1), testId: "T1", value: { determinable: true, value: 750, unit: "um" } },
    ]));

  test("that are void or invalid have no point, and say why; a waived one has", () => {
    const standing = { corrections: 0, voided: false, waived: false };
    const rows = [
      rowAt(0, { amended: { ...standing, voided: true } }),
      rowAt(1, { test: "invalid" }),
      rowAt(2, { test: "invalid", amended: { ...standing, waived: true } }),
      rowAt(3, { values: {} }),
    ];
    const { points, setAside } = chart(rows);
    expect(points.map(({ testId }) => testId)).toEqual(["T2"]);
    expect(setAside.map(({ testId, reason }) => [testId, reason])).toEqual([
      ["T0", "the test is void"],
      ["T1", "the test is invalid: it says nothing of the product"],
      ["T3", "it could not be determined in this test"],
    ]);
  });
});

describe("a revision that draws its curve over other apertures", () => {
  const rows = [
    ...rowsOf(STEADY),
    ...STEADY.map((um, i) =>
      rowAt(STEADY.length + i, { values: { "percentileUm@50": um + 40 }, apertures: "certified" }),
    ),
  ];

  test("begins the limits anew, and says why; none where nothing changes", () => {
    expect(apertureChanges(rowsOf(STEADY))).toEqual([]);
    expect(apertureChanges(rows)).toEqual([
      { at: hourAt(STEADY.length), why: "from here on the curve is drawn over certified apertures" },
    ]);
    const { segments } = chart(rows);
    expect(segments.map(({ why }) => why)).toEqual([null, "from here on the curve is drawn over certified apertures"]);
    // Sizes over other apertures are other figures: no switch puts them under one pair of limits.
    expect(chart(rows, {}, { ...USUAL_SWITCHES, restarts: false }).segments).toHaveLength(2);
  });
});

describe("changes of a line", () => {
  const events = [
    adjusted(5),
    adjusted(6, { what: "changeover", detail: "" }),
    adjusted(7, { what: "new lot" }),
    adjusted(8, { what: "stopped" }),
    adjusted(9, { line: "Mill 2" }),
  ];

  test("restart limits if they were adjustments of that line", () =>
    expect(restartsOf(events, "Dryer 1")).toEqual([{ at: hourAt(5), why: "deck: 0.71 put in for 0.75" }]));

  test("are marked all but new lots, those of that line only", () =>
    expect(marksOf(events, "Dryer 1").map(({ what }) => what)).toEqual(["deck", "changeover", "stopped"]));

  test("read as what and how, or what alone", () => {
    expect(changeWords(adjusted(0))).toBe("deck: 0.71 put in for 0.75");
    expect(changeWords(adjusted(0, { detail: "" }))).toBe("deck");
  });
});

describe("the chart of a figure", () => {
  test("has the unit, the product's limits for capability, and limits of its own from the first tests", () => {
    const found = chart();
    expect(found).toMatchObject({ chart: "individuals", unit: "um", replicates: 1 });
    expect(found.points).toHaveLength(40);
    expect(found.capability.cpk.determinable).toBe(true);
    expect(found.segments).toHaveLength(1);
    expect(found.points.filter(({ inBaseline }) => inBaseline)).toHaveLength(25);
  });

  test("starts anew after an adjustment, and says what it was", () => {
    const { segments } = chart(rowsOf(STEADY), { events: [adjusted(20)] });
    expect(segments.map(({ from, to, why }) => [from, to, why])).toEqual([
      [0, 19, null],
      [20, 39, "deck: 0.71 put in for 0.75"],
    ]);
  });

  test("does not where restarts are turned off", () =>
    expect(
      chart(rowsOf(STEADY), { events: [adjusted(20)] }, { ...USUAL_SWITCHES, restarts: false }).segments,
    ).toHaveLength(1));

  test("uses frozen limits of this figure, and no others", () => {
    expect(chart(rowsOf(STEADY), { frozen: [frozen()] }).centre).toMatchObject({ value: 700 });
    expect(chart(rowsOf(STEADY), { frozen: [frozen({ on: "passingPct@500" })] }).centre).not.toMatchObject({
      value: 700,
    });
    const off = { ...USUAL_SWITCHES, useFrozen: false };
    expect(chart(rowsOf(STEADY), { frozen: [frozen()] }, off).centre).not.toMatchObject({ value: 700 });
  });

  test("no longer after an adjustment, even one before the first test at hand", () => {
    const later = rowsOf(STEADY).slice(10);
    const { centre } = chart(later, { frozen: [frozen()], events: [adjusted(5)] });
    expect(centre).toMatchObject({ determinable: true });
    expect(centre).not.toMatchObject({ value: 700 });
  });

  test("of several freezings of the same stretch the last one counts", () => {
    const both = [frozen(), frozen({ number: 991, centre: 720 })];
    expect(chart(rowsOf(STEADY), { frozen: both }).centre).toMatchObject({ value: 720 });
  });

  test("tests left out when limits were frozen stay left out while those limits are used", () => {
    const found = chart(rowsOf(STEADY), { frozen: [frozen({ leftOut: ["T3"] })] });
    expect(found.points.filter(({ leftOut }) => leftOut).map(({ testId }) => testId)).toEqual(["T3"]);
  });

  test("follows the rules that are on", () => {
    const high = rowsOf([...STEADY.slice(0, 30), ...Array<number>(9).fill(748)]);
    const rulesAt = (switches: typeof USUAL_SWITCHES) =>
      chart(high, {}, switches).points.flatMap(({ signals }) => signals.map(({ rule }) => rule));
    expect(rulesAt(USUAL_SWITCHES)).toContain("8-on-one-side");
    expect(rulesAt({ ...USUAL_SWITCHES, rules: [], spreadSignals: false })).toEqual([]);
  });
});

describe("limits that are frozen", () => {
  test("come back from the record as the control room gave them", () => {
    const limits = freezeLimits(chart());
    if (!limits.ok) throw new Error(limits.reason);
    const { firstTestId, lastTestId, ...rest } = limits.value;
    const ref = (testId: string) => ({ testId, day: "2026-11-01", number: 1 });
    const entry = frozen({ ...rest, leftOut: [...rest.leftOut], first: ref(firstTestId), last: ref(lastTestId) });
    expect(frozenLimits(entry)).toEqual(limits.value);
    const again = chart(rowsOf([...STEADY, 760, 775, 790]), { frozen: [entry] });
    expect(again.centre).toEqual(chart().centre);
    expect(again.upper).toEqual(chart().upper);
  });

  test("name charts as the control room does", () => expect([...CHARTED_AS]).toEqual([...CHART_KINDS]));
});
