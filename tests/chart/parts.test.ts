import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createCanvas } from "../../src/chart/canvas.ts";
import { fitLabels } from "../../src/chart/fitLabels.ts";
import { glyphsFor } from "../../src/chart/glyphs.ts";
import { polyline } from "../../src/chart/polyline.ts";
import { sizeAxis } from "../../src/chart/sizeAxis.ts";
import { drawStretches } from "../../src/chart/stretch.ts";
import { axisFromZero, valueTicks } from "../../src/chart/valueAxis.ts";

describe("canvas", () => {
  test("draws nothing outside itself", () => {
    const canvas = createCanvas(4, 2);
    canvas.put(2, 0, "abcd");
    canvas.put(-1, 1, "xy");
    canvas.put(0, 2, "z");
    canvas.put(0, -1, "z");
    expect(canvas.rows()).toEqual(["  ab", "y   "]);
  });

  test("draws behind only where nothing is", () => {
    const canvas = createCanvas(3, 1);
    canvas.put(1, 0, "x");
    for (const column of [0, 1, 2, 3]) canvas.putBehind(column, 0, ".");
    expect(canvas.rows()).toEqual([".x."]);
  });

  test("of no size is no rows", () => {
    expect(createCanvas(5, 0).rows()).toEqual([]);
    expect(createCanvas(-2, 2).rows()).toEqual(["", ""]);
  });
});

describe("a line by asciichart", () => {
  const drawn = (heights: readonly (number | null)[], rows: number) => {
    const canvas = createCanvas(Math.max(0, heights.length - 1), rows);
    drawStretches(heights, rows, glyphsFor().curve, canvas.put);
    return canvas.rows();
  };

  test("has one column between each two heights", () =>
    expect(drawn([0, 1, 1, 2, 0], 3)).toEqual(["  ╭╮", "╭─╯│", "╯  ╰"]));
  test("breaks at a gap", () => expect(drawn([0, 0, null, 1, 1], 2)).toEqual(["   ─", "─   "]));
  test("holds what is beyond at the edge", () => expect(drawn([-5, -5, 9, 9], 2)).toEqual([" ╭─", "─╯ "]));
  test("takes numbers that are none for gaps", () =>
    expect(drawn([1, Number.NaN, 1, 1, Number.POSITIVE_INFINITY], 2)).toEqual(["  ─ ", "    "]));
  test("is nothing for one height, or none", () => {
    expect(drawn([1], 2)).toEqual(["", ""]);
    expect(drawn([], 2)).toEqual(["", ""]);
    expect(drawn([null, null, null], 1)).toEqual(["  "]);
  });
  test("fits in one row", () => expect(drawn([0, 0, 0], 1)).toEqual(["──"]));
  test("costs no more rows than it has, however far apart the heights are", () =>
    expect(drawn([0, 5e6, 1e5, 0], 3).length).toBe(3));

  test("passes every column of a stretch and stays in its rows", () =>
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 30, noNaN: true }), { minLength: 2, maxLength: 80 }), (heights) => {
        const rows = drawn(heights, 31);
        for (let column = 0; column < heights.length - 1; column += 1) {
          expect(rows.some((row) => row[column] !== " ")).toBe(true);
        }
      }),
    ));
});

describe("labels in a row", () => {
  const texts = (columns: readonly number[], width: number) =>
    fitLabels(
      columns.map((column) => ({ column, label: String(column) })),
      width,
    ).map(({ text }) => text);

  test("are all there if they fit", () => expect(texts([2, 10, 20], 30)).toEqual(["2", "10", "20"]));
  test("keep the last, then the first, then the middle", () => {
    expect(texts([10, 13, 16, 19, 22], 30)).toEqual(["10", "13", "16", "19", "22"]);
    expect(texts([10, 11, 12, 13, 14], 30)).toEqual(["10", "14"]);
    expect(texts([10, 11], 30)).toEqual(["11"]);
    expect(texts([], 30)).toEqual([]);
  });
  test("stand centred under their column, and within the row", () => {
    const label = (column: number) => fitLabels([{ column, label: "12345" }], 20)[0]?.column;
    expect(label(10)).toBe(8);
    expect(label(0)).toBe(0);
    expect(label(19)).toBe(15);
  });
  test("are left out where not even one fits", () => expect(fitLabels([{ column: 1, label: "12345" }], 3)).toEqual([]));
  test("name a unit once, behind the last of those that share it", () => {
    const labels = [
      { column: 2, label: "250", unit: "um" },
      { column: 12, label: "500", unit: "um" },
      { column: 26, label: "1", unit: "mm" },
      { column: 36, label: "2", unit: "mm" },
    ];
    expect(fitLabels(labels, 50).map((l) => l.text)).toEqual(["250", "500 um", "1", "2 mm"]);
    expect(fitLabels(labels.slice(0, 2), 50).map((l) => l.text)).toEqual(["250", "500 um"]);
  });

  test("never touch and never leave the row", () =>
    fc.assert(
      fc.property(fc.uniqueArray(fc.nat(90), { maxLength: 30 }), fc.integer({ min: 1, max: 100 }), (columns, width) => {
        const placed = fitLabels(
          columns.toSorted((a, b) => a - b).map((column) => ({ column, label: `${column}.5`, unit: "mm" })),
          width,
        );
        for (const [i, { column, text }] of placed.entries()) {
          expect(column).toBeGreaterThanOrEqual(0);
          expect(column + text.length).toBeLessThanOrEqual(Math.min(width, (placed[i + 1]?.column ?? width + 1) - 1));
        }
      }),
    ));
});

describe("polyline", () => {
  const line = polyline([
    { x: 2, y: 20 },
    { x: 0, y: 0 },
    { x: 3, y: null },
    { x: 4, y: 40 },
  ]);
  test.each([
    [0, 0],
    [1, 10],
    [2, 20],
    [2.5, null],
    [3, null],
    [3.5, null],
    [4, 40],
    [-1, null],
    [5, null],
  ])("at %d is %d", (x, y) => expect(line(x)).toBe(y));
  test("of nothing is nowhere", () => expect(polyline([])(0)).toBe(null));
});

describe("axes", () => {
  test("of size hold every sieve, with a little room beyond", () => {
    const axis = sizeAxis([1000, 100, 10])!;
    expect(axis.from).toBeLessThan(1);
    expect(axis.from).toBeGreaterThan(0.9);
    expect(axis.to).toBeCloseTo(3.04, 10);
    expect(axis.ticks.map(({ at, label, unit }) => [at, label, unit])).toEqual([
      [1, "10", "um"],
      [2, "100", "um"],
      [3, "1", "mm"],
    ]);
  });
  test("of size need a sieve", () => {
    expect(sizeAxis([])).toBe(null);
    expect(sizeAxis([0, Number.NaN, -5])).toBe(null);
  });
  test("of size reach over a size that is no sieve, without a tick for it", () => {
    const axis = sizeAxis([1000, 500], [2000])!;
    expect(axis.to).toBeGreaterThan(Math.log10(2000));
    expect(axis.ticks.length).toBe(2);
  });

  test.each([
    [0, 100, 12, ["100", "0", "50"]],
    [0.1, 0.32, 12, ["0.3", "0.1", "0.2"]],
    [-3, 3, 12, ["2", "-2", "0"]],
    [5, 5, 12, []],
    [0, 1e-300, 4, []],
    [740, 740 + 1e-12, 12, []],
    [0, 2000, 4, ["2000", "0"]],
  ])("values from %d to %d in %i rows are labelled %j", (from, to, rows, labels) => {
    expect(valueTicks(from, to, rows).map((tick) => tick.label)).toEqual(labels);
  });

  test.each([
    [64, 12, 80, ["0", "20", "40", "60", "80"]],
    [64, 4, 100, ["0", "50", "100"]],
    [0.7, 12, 0.8, ["0.0", "0.2", "0.4", "0.6", "0.8"]],
    [0, 12, 1, ["0"]],
    [Number.MIN_VALUE, 12, 1, ["0"]],
    [3e-310, 12, 1, ["0"]],
    [Number.NaN, 12, 1, ["0"]],
  ])("from 0 to above %d in %i rows ends at %d", (greatest, rows, to, labels) => {
    const axis = axisFromZero(greatest, rows);
    expect(axis.to).toBeCloseTo(to, 10);
    expect(axis.ticks.map((tick) => tick.label)).toEqual(labels);
  });
});
