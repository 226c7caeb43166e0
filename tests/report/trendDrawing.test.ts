import { describe, expect, test } from "vitest";
import { changesIn, signalsAt, TREND_VIEWS, type TrendView, trendDrawing } from "../../src/report/trendDrawing.ts";
import { trendChartOf } from "../../src/shift/trend.ts";
import { type Figure, figuresOf } from "../../src/shift/trendFigure.ts";
import { adjusted, read, rowsOf, SAND, STEADY } from "../shift/trendWorld.ts";

const found = figuresOf(SAND).find(({ on }) => on === "percentileUm@50");
if (!found) throw new Error("no d50");
const D50: Figure = found;
const JUMPED = [...STEADY.slice(0, 30), 900, ...STEADY.slice(30)];
const chart = trendChartOf(read(rowsOf(JUMPED), { events: [adjusted(35)] }), D50, "Dryer 1");
const ALL = { from: 0, to: chart.points.length - 1 };
const drawn = (view: TrendView, stretch = ALL) => trendDrawing(chart, stretch, D50, view);
const labels = (view: TrendView) => drawn(view).lines.map(({ kind, label }) => `${kind} ${label.split(" ")[0]}`);

describe("a trend as it is drawn", () => {
  test.each(TREND_VIEWS)("in %s has one point a test and every line as long as the stretch", (view) => {
    for (const stretch of [ALL, { from: 5, to: 14 }]) {
      const { series, lines } = drawn(view, stretch);
      const tests = stretch.to - stretch.from + 1;
      for (const run of series) expect(run).toHaveLength(tests);
      for (const { ys } of lines) expect(ys).toHaveLength(tests);
    }
  });

  test("has the lines that belong to its view, the product's limits where values are shown", () => {
    expect(labels("values")).toEqual(["centre centre", "control upper", "control lower", "product max", "product min"]);
    expect(labels("moving range")).toEqual(["centre centre", "control upper"]);
    expect(labels("weighted average")).toEqual(labels("values"));
    expect(labels("cumulative sums")).toEqual(["centre 0", "control upper", "control lower"]);
  });

  test("shows values as tested, and marks where rules signal", () => {
    const [run = []] = drawn("values").series;
    expect(run.map(({ y }) => y)).toEqual(JUMPED);
    expect(run[30]?.sign).toBe("signal");
    expect(run[3]?.sign).toBe("point");
  });

  test("shows moving ranges, and marks those beyond their limit there", () => {
    const [run = []] = drawn("moving range").series;
    expect(run[0]?.y).toBeNull();
    expect(run[30]).toEqual({ y: Math.abs(900 - (JUMPED[29] ?? 0)), sign: "signal" });
  });

  test("sums upwards what lies above and downwards what lies below", () => {
    const [above = [], below = []] = drawn("cumulative sums").series;
    expect(above.every(({ y }) => y === null || y >= 0)).toBe(true);
    expect(below.every(({ y }) => y === null || y <= 0)).toBe(true);
    expect(above[30]?.sign).toBe("signal");
  });

  test("has no line where a stretch has no limits", () => {
    const [centre] = drawn("values").lines;
    expect(centre?.ys[34]).not.toBeNull();
    expect(centre?.ys[36]).toBeNull();
    const [average = []] = drawn("weighted average").series;
    expect(average[36]?.y).toBeNull();
  });

  test("marks what is left out by its own sign", () => {
    const left = trendChartOf(read(rowsOf(STEADY)), D50, "Dryer 1", {
      rules: [],
      spreadSignals: false,
      leftOut: ["T3"],
      restarts: true,
      useFrozen: true,
    });
    const [run = []] = trendDrawing(left, { from: 0, to: 9 }, D50, "values").series;
    expect(run[3]?.sign).toBe("leftOut");
  });
});

describe("marks of changes", () => {
  test("stand before the first test after them, counted from the stretch", () => {
    expect(changesIn(chart, ALL, [adjusted(35)])).toEqual([35]);
    expect(changesIn(chart, { from: 30, to: 40 }, [adjusted(35)])).toEqual([5]);
  });

  test("outside the stretch, before the first test or after the last there are none; two at once are one", () => {
    expect(changesIn(chart, { from: 0, to: 10 }, [adjusted(35)])).toEqual([]);
    expect(changesIn(chart, ALL, [adjusted(-5), adjusted(500)])).toEqual([]);
    expect(changesIn(chart, ALL, [adjusted(35), adjusted(35, { what: "speed" })])).toEqual([35]);
  });
});

describe("what is seen at a test", () => {
  test("is what any chart sees there: rules, moving range, average and sums", () =>
    expect(signalsAt(chart, 30).map(({ rule }) => rule)).toEqual(
      expect.arrayContaining(["1-beyond-3-sigma", "spread", "ewma", "cusum"]),
    ));

  test("is nothing where nothing is", () => {
    expect(signalsAt(chart, 3)).toEqual([]);
    expect(signalsAt(chart, 9999)).toEqual([]);
  });
});
