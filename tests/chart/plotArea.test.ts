import { describe, expect, test } from "vitest";
import { glyphsFor } from "../../src/chart/glyphs.ts";
import { percentAxis } from "../../src/chart/percentAxis.ts";
import { type Axis, createPlotArea } from "../../src/chart/plotArea.ts";
import { expectToFill, picture } from "./drawing.ts";

const glyphs = glyphsFor();
const y: Axis = {
  from: 0,
  to: 10,
  ticks: [
    { at: 10, label: "10" },
    { at: 0, label: "0" },
  ],
};
const x: Axis = {
  from: 0,
  to: 10,
  ticks: [
    { at: 0, label: "0" },
    { at: 5, label: "5" },
    { at: 10, label: "10", unit: "g" },
  ],
};

describe("axes", () => {
  test("stand at the left and below, with their labels", () => {
    expect(picture(createPlotArea({ x, y, width: 23, height: 6, glyphs }).text())).toBe(`
10┤
  │
  │
 0┤
  └┬─────────┬────────┬
   0         5     10 g
`);
  });

  test("of size go first where it is narrow or low", () => {
    const narrow = createPlotArea({ x, y, width: 8, height: 6, glyphs }).text();
    expect(narrow.join("")).not.toContain("┤");
    const low = createPlotArea({ x, y, width: 23, height: 3, glyphs }).text();
    expect(low.join("")).not.toContain("┬");
    expect(low.join("")).toContain("┤");
  });

  test("are not there without ticks", () => {
    const area = createPlotArea({ x: { from: 0, to: 1, ticks: [] }, y, width: 23, height: 6, glyphs });
    expect(area.rows).toBe(6);
    expect(area.text().join("")).not.toContain("└");
  });

  test("keep the first label of two on one row", () => {
    const ticks = [
      { at: 10, label: "limit" },
      { at: 9.9, label: "10" },
    ];
    const rows = createPlotArea({ x, y: { ...y, ticks }, width: 30, height: 6, glyphs }).text();
    expect(rows[0]).toMatch(/^limit┤/);
    expect(rows.join("")).not.toContain(" 10┤");
  });
});

describe("what is put on it", () => {
  const bare = (width = 11, height = 11) =>
    createPlotArea({
      x: { from: 0, to: 10, ticks: [] },
      y: { from: 0, to: 10, ticks: [] },
      width,
      height,
      glyphs,
    });
  const placeOf = (rows: readonly string[], glyph: string) => {
    const row = rows.findIndex((text) => text.includes(glyph));
    return [rows[row]?.indexOf(glyph), row];
  };

  test.each([
    [0, 0, 1, 10],
    [10, 10, 10, 0],
    [5, 5, 6, 5],
    [-3, 99, 1, 0],
  ])("a mark at %d, %d is in column %i, row %i", (px, py, column, row) => {
    const area = bare();
    area.mark(px, py, "●");
    expect(placeOf(area.text(), "●")).toEqual([column, row]);
  });

  test("a curve passes where a mark of the same place is", () => {
    const area = bare(41, 21);
    area.curve((at) => at, glyphs.curve);
    const before = area.text();
    for (const place of [1, 3.3, 5, 7.7]) {
      const marked = bare(41, 21);
      marked.mark(place, place, "●");
      const [column = 0, row = 0] = placeOf(marked.text(), "●");
      const near = [row - 1, row, row + 1].map((r) => before[r]?.[column] ?? " ");
      expect(near.join("").trim()).not.toBe("");
    }
  });

  test("a drop line reaches down to the last row and hides nothing", () => {
    const area = bare(12, 6);
    area.mark(5, 0, "●");
    area.dropLine(5, 8);
    const column = area.text().map((row) => row[placeOf(area.text(), "●")[0]!]);
    expect(column.join("")).toBe("  ┊┊┊●");
  });

  test("columns are filled from below, by eighths", () => {
    const axes = { x: { from: 0, to: 8, ticks: [] }, y: { from: 0, to: 2, ticks: [] } };
    const area = createPlotArea({ ...axes, width: 9, height: 2, glyphs });
    area.fill((at) => (at < 1 ? 2 : at < 2 ? 1.5 : at < 3 ? 0.001 : null));
    expect(area.text()).toEqual(["│█▄      ", "│██▁     "]);
  });

  test("a note stands in the middle", () => {
    const area = bare(21, 3);
    area.note("nothing yet");
    expect(picture(area.text())).toBe("\n│\n│    nothing yet\n│\n");
  });

  test("no place at all is no drawing", () => {
    for (const [width, height] of [
      [0, 0],
      [0, 5],
      [5, 0],
      [1, 1],
    ] as const) {
      const area = createPlotArea({ x, y, width, height, glyphs });
      area.curve((at) => at, glyphs.curve);
      area.fill((at) => at);
      area.mark(5, 5, "●");
      area.dropLine(5, 5);
      area.note("x");
      expectToFill(area.text(), width, height);
    }
  });
});

test.each([
  [3, ["100", "0"]],
  [5, ["100", "0", "50"]],
  [9, ["100", "0", "50", "25", "75"]],
  [30, ["100", "0", "50", "10", "20", "30", "40", "60", "70", "80", "90"]],
])("percent in %i rows is labelled %j", (rows, labels) =>
  expect(percentAxis(rows).ticks.map((tick) => tick.label)).toEqual(labels),
);
