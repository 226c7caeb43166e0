import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type ChartPoint, plottedPoints } from "../../src/control/chartPoint.ts";
import { determined, undetermined } from "../../src/record/determination.ts";
import { hour, hourly, hourlyPortions } from "./hourly.ts";

describe("on a chart of individuals", () => {
  test("numbers and determined values are plotted", () => {
    const points: ChartPoint[] = [
      { at: hour(0), testId: "A", value: 7 },
      { at: hour(1), testId: "B", value: determined(8, "um") },
    ];
    expect(plottedPoints(points, "individuals")).toEqual({
      plotted: [
        { at: hour(0), testId: "A", value: 7, portions: [7] },
        { at: hour(1), testId: "B", value: 8, portions: [8] },
      ],
      setAside: [],
      replicates: 1,
    });
  });

  test("a test without a value is set aside with its reason", () => {
    const points: ChartPoint[] = [
      { at: hour(0), testId: "A", value: null },
      { at: hour(1), testId: "B", value: undetermined("d5 is finer than the finest sieve") },
      { at: hour(2), testId: "C", value: Number.NaN },
      { at: hour(3), testId: "D", value: determined(Number.POSITIVE_INFINITY, "1") },
      { at: "yesterday", testId: "E", value: 4 },
    ];
    const { plotted, setAside } = plottedPoints(points, "individuals");
    expect(plotted).toEqual([]);
    expect(setAside.map(({ testId, reason }) => `${testId}: ${reason}`)).toEqual([
      "A: no value was found",
      "B: d5 is finer than the finest sieve",
      "C: its value is not a number",
      "D: its value is not a number",
      "E: its time can't be read",
    ]);
  });

  test("portions are not read", () => {
    const point = { at: hour(0), testId: "A", value: 7, replicates: [1, 2, 3] };
    expect(plottedPoints([point], "individuals").plotted[0]).toMatchObject({ value: 7, portions: [7] });
  });
});

describe("on a chart of replicates", () => {
  test("the mean of the portions is plotted, whatever the value", () => {
    const { plotted, replicates } = plottedPoints(hourlyPortions([[1, 2, 6]]), "mean-and-range");
    expect(plotted[0]).toMatchObject({ value: 3, portions: [1, 2, 6] });
    expect(replicates).toBe(3);
  });

  test("a test of another number of portions than most is set aside", () => {
    const points = hourlyPortions([[1, 2], [1, 2, 3], [1, 3], [5], []]);
    const { plotted, setAside, replicates } = plottedPoints(points, "mean-and-deviation");
    expect(replicates).toBe(2);
    expect(plotted.map(({ testId }) => testId)).toEqual(["T0", "T2"]);
    expect(setAside.map(({ reason }) => reason)).toEqual([
      "3 portions where the chart has 2",
      "a chart of replicates needs two portions or more",
      "a chart of replicates needs two portions or more",
    ]);
  });

  test("of equally frequent numbers the larger counts", () => {
    expect(
      plottedPoints(
        hourlyPortions([
          [1, 2],
          [1, 2, 3],
        ]),
        "mean-and-range",
      ).replicates,
    ).toBe(3);
  });

  test("a test without portions, with too many or with one that is no number is set aside", () => {
    const many = Array.from({ length: 26 }, (_, i) => i);
    const points = [...hourly([4]), ...hourlyPortions([many, [1, Number.NaN]])];
    expect(plottedPoints(points, "mean-and-range").setAside.map(({ reason }) => reason)).toEqual([
      "a chart of replicates needs two portions or more",
      "more than 25 portions",
      "its value is not a number",
    ]);
  });
});

test("tests are put in the order of their instants, equal ones in the order given", () => {
  const points: ChartPoint[] = [
    { at: "2026-03-01T12:00:00+02:00", testId: "noon here", value: 3 },
    { at: "2026-03-01T09:30:00Z", testId: "before", value: 1 },
    { at: "2026-03-01T10:00:00Z", testId: "the same instant", value: 2 },
  ];
  const { plotted } = plottedPoints(points, "individuals");
  expect(plotted.map(({ testId }) => testId)).toEqual(["before", "noon here", "the same instant"]);
});

test("no test is lost and none is told twice", () => {
  const anyValue = fc.oneof(fc.double(), fc.constant(null), fc.constant(undetermined("why")));
  fc.assert(
    fc.property(fc.array(fc.record({ at: fc.constantFrom(hour(3), hour(1), "?"), value: anyValue })), (given) => {
      const points = given.map((point, i) => ({ ...point, testId: `T${i}` }));
      const { plotted, setAside } = plottedPoints(points, "individuals");
      const told = [...plotted, ...setAside].map(({ testId }) => testId);
      expect(told.toSorted()).toEqual(points.map(({ testId }) => testId).toSorted());
      expect(plotted.every(({ value }) => Number.isFinite(value))).toBe(true);
    }),
  );
});
