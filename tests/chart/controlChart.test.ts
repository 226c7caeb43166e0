import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { controlAxis } from "../../src/chart/controlAxis.ts";
import {
  type ControlDrawing,
  type ControlLine,
  type ControlPoint,
  controlChart,
} from "../../src/chart/controlChart.ts";
import { controlGlyphs, controlLegend } from "../../src/chart/controlGlyphs.ts";
import { columnsOfTests } from "../../src/chart/controlRun.ts";
import { anyHeight, anyWidth, expectToFill, picture } from "./drawing.ts";

const points = (...ys: (number | null)[]): ControlPoint[] => ys.map((y) => ({ y, sign: "point" }));
const level = (kind: ControlLine["kind"], label: string, at: number, tests: number): ControlLine => ({
  kind,
  label,
  ys: Array<number>(tests).fill(at),
});
const drawing = (change: Partial<ControlDrawing> = {}): ControlDrawing => ({
  series: [points(740, 744, 738, 752, 741, 743)],
  lines: [
    level("centre", "centre 742", 742, 6),
    level("control", "upper 755", 755, 6),
    level("control", "lower 729", 729, 6),
    level("product", "max 760", 760, 6),
  ],
  width: 44,
  height: 12,
  ...change,
});
const count = (rows: readonly string[], glyph: string) => rows.join("").split(glyph).length - 1;

describe("a control chart", () => {
  test("has centre, control limits and the product's limits each in its own sign, named at the axis", () =>
    expect(picture(controlChart(drawing({ ends: ["11-23 05:08", "11-24 01:38"], cursor: 3 })))).toBe(`
   max 760┤  ═══════════════════════════════
          │
 upper 755┤  ╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╭●╌╌╌╌╌╌╌╌╌╌╌╌
          │                  ╭╯╰─╮
          │                ╭─╯   ╰─╮
centre 742┤  ·╭────●──╮···╭╯·······╰─●─────●
          │  ●╯       ╰──●╯
          │
          │
 lower 729┤  ╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌
          └────────────────────▲────────────
             11-23 05:08         11-24 01:38
`));

  test("marks what is out of control, and what is left out, by shape", () => {
    const { point, signal, leftOut } = controlGlyphs();
    const rows = controlChart(
      drawing({
        series: [
          [
            { y: 740, sign: "point" },
            { y: 758, sign: "signal" },
            { y: 700, sign: "leftOut" },
            { y: 741, sign: "point" },
          ],
        ],
      }),
    );
    expect([count(rows, point), count(rows, signal), count(rows, leftOut)]).toEqual([2, 1, 1]);
  });

  test("shows signals and the newest test even where there is no room for dots", () => {
    const many = points(...Array.from({ length: 33 }, (_, i) => 740 + (i % 3)));
    many[10] = { y: 741, sign: "signal" };
    const rows = controlChart(drawing({ series: [many], lines: [] }));
    expect([count(rows, "◆"), count(rows, "●")]).toEqual([1, 1]);
  });

  test("loses no extreme and no signal where tests share columns", () => {
    const many = points(...Array.from({ length: 400 }, (_, i) => (i === 200 ? 900 : i === 300 ? 500 : 740)));
    many[200] = { y: 900, sign: "signal" };
    const rows = controlChart(drawing({ series: [many], lines: [] }));
    expect(rows[0]).toContain("◆");
    expect(rows[9]).toContain("│");
    expect(rows[9]?.slice(10)).toMatch(/│/);
  });

  test("stands a dotted upright before the first test after a change", () => {
    const rows = controlChart(drawing({ changes: [3] }));
    const plain = controlChart(drawing());
    const column = [...(controlChart(drawing({ cursor: 3 })).at(-2) ?? "")].indexOf("▲");
    const changed = rows.filter((row) => [...row][column] === "┊");
    expect(changed.length).toBeGreaterThan(3);
    expect(count(plain, "┊")).toBe(0);
  });

  test("steps where limits change from one stretch to the next", () => {
    const ys = [...Array<number>(3).fill(729), ...Array<number>(3).fill(735)];
    const rows = controlChart(
      drawing({ lines: [{ kind: "control", label: "lower", ys }, level("product", "max", 760, 6)] }),
    );
    expect(rows.filter((row) => row.includes("╌╌╌"))).toHaveLength(2);
  });

  test("lets two lines on one row take turns, so that neither hides the other", () => {
    const rows = controlChart(
      drawing({ lines: [level("control", "upper", 755, 6), level("product", "max", 755.2, 6)] }),
    );
    expect(rows.join("\n")).toContain("═╌═╌");
  });

  test("leaves a limit of the product off that would flatten everything else", () => {
    const far = controlChart(
      drawing({ lines: [...drawing().lines.slice(0, 3), level("product", "max 2000", 2000, 6)] }),
    );
    expect(far.join("\n")).not.toContain("max 2000");
    expect(count(far, "═")).toBe(0);
  });

  test("draws two runs over one another: sums above and below", () => {
    const rows = controlChart(drawing({ series: [points(0, 5, 9), points(0, -2, 0)], lines: [] }));
    expect(count(rows, "●")).toBeGreaterThanOrEqual(4);
  });

  test("of nothing says so", () =>
    expect(controlChart(drawing({ series: [], lines: [] })).join("\n")).toContain("no test to draw"));

  test("in ASCII keeps every kind apart", () => {
    const rows = controlChart(drawing({ ascii: true, cursor: 5, changes: [3] })).join("\n");
    expect(rows).toMatch(/^[\x20-\x7e\n]*$/);
    for (const sign of ["=", "^", "o", "!", "."]) expect(rows).toContain(sign);
  });

  test("is `height` rows of exactly `width` columns, whatever there is to draw", () =>
    fc.assert(
      fc.property(
        fc.array(fc.option(fc.double({ min: -1e6, max: 1e6, noNaN: true })), { maxLength: 300 }),
        fc.constantFrom<ControlPoint["sign"]>("point", "signal", "leftOut"),
        anyWidth,
        anyHeight,
        fc.boolean(),
        (ys, sign, width, height, ascii) => {
          const tests = ys.length;
          const lines = [level("centre", "centre 1", 1, tests), level("product", "max 5", 5, tests)];
          const series = [ys.map((y) => ({ y, sign }))];
          const rows = controlChart({
            series,
            lines,
            changes: [0, 1, 9999],
            cursor: 2,
            ends: ["from", "to"],
            width,
            height,
            ascii,
          });
          expect(rows).toHaveLength(height);
          for (const row of rows) {
            expect([...row]).toHaveLength(width);
            expect(row).not.toMatch(/NaN|undefined|Infinity/);
          }
        },
      ),
    ));

  test("passes values that are none as gaps", () =>
    expectToFill(controlChart(drawing({ series: [points(740, null, Number.NaN, 741)], lines: [] })), 44, 12));
});

describe("where tests stand", () => {
  test("evenly, the newest at the right edge, the first at the left where they fill the width", () => {
    expect(columnsOfTests(3, 61)).toEqual([48, 54, 60]);
    expect(columnsOfTests(61, 61)).toEqual(Array.from({ length: 61 }, (_, i) => i));
    const crowded = columnsOfTests(200, 61);
    expect([crowded[0], crowded.at(-1)]).toEqual([0, 60]);
  });

  test("never out of order or outside, however many in however few columns", () =>
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 500 }), fc.integer({ min: 1, max: 200 }), (tests, columns) => {
        const at = columnsOfTests(tests, columns);
        expect(at).toHaveLength(tests);
        expect(at).toEqual(at.toSorted((a, b) => a - b));
        for (const column of at) expect(column >= 0 && column < columns).toBe(true);
        if (tests > 0) expect(at.at(-1)).toBe(columns - 1);
      }),
    ));
});

describe("the upright axis", () => {
  test("reaches over all tests and control limits", () => {
    const { from, to } = controlAxis([700, 760], [level("control", "upper", 800, 2)], 10);
    expect(from).toBeLessThan(700);
    expect(to).toBeGreaterThan(800);
  });

  test("names the lines, the centre first; without lines it has round numbers", () => {
    const lines = [
      level("product", "max", 790, 2),
      level("control", "upper", 780, 2),
      level("centre", "centre", 742, 2),
    ];
    expect(controlAxis([740, 744], lines, 10).ticks.map(({ label }) => label)).toEqual(["centre", "upper", "max"]);
    expect(controlAxis([740, 760], [], 10).ticks.map(({ label }) => label)).toEqual(["760", "740"]);
  });

  test("has height even where all values are alike", () => {
    const { from, to } = controlAxis([0, 0], [], 10);
    expect(to).toBeGreaterThan(from);
  });
});

describe("the legend", () => {
  test("names every sign, the product's limits only where there are any", () => {
    expect(controlLegend({ limited: true })).toBe(
      "test ●  signal ◆  centre ··  control limit ╌╌  product's limit ══  change ┊",
    );
    expect(controlLegend()).not.toContain("product");
    expect(controlLegend({ crowded: true })).toMatch(/^tests │ /);
  });

  test.each([false, true])("has no sign twice (ASCII: %s)", (ascii) => {
    const { reach: _shared, ...signs } = controlGlyphs(ascii);
    expect(new Set(Object.values(signs)).size).toBe(Object.values(signs).length);
  });
});
