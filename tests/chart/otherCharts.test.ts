import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { densityChart } from "../../src/chart/densityChart.ts";
import { gridChart } from "../../src/chart/gridChart.ts";
import { retainedHistogram } from "../../src/chart/histogram.ts";
import { sparkline } from "../../src/chart/sparkline.ts";
import { trendChart } from "../../src/chart/trendChart.ts";
import { anyHeight, anyPoints, anyWidth, expectToFill, picture } from "./drawing.ts";

const fractions = (text: string) =>
  text.split(" ").map((part) => {
    const [aperture, pct] = part.split(":");
    return { apertureUm: aperture === "pan" ? 0 : Number(aperture), retainedPct: Number(pct) };
  });

const filterSand = fractions("1400:1.9 1000:18.8 710:32.3 500:30 355:13 pan:4");

const anyFractions = anyPoints.map((points) => [
  ...points.map(({ apertureUm, passingPct }, i) => ({
    apertureUm,
    retainedPct: (points[i - 1]?.passingPct ?? 100) - passingPct,
  })),
  { apertureUm: 0, retainedPct: points.at(-1)?.passingPct ?? 100 },
]);

const barLengths = (rows: readonly string[]) => rows.map((row) => row.split("█").length - 1);

describe("retained % as bars", () => {
  test("stands as the stack stands, each bar with its number", () => {
    expect(picture(retainedHistogram({ fractions: filterSand, width: 40, height: 6 }))).toBe(`
1.40 mm █▌ 1.9 %
1.00 mm ██████████████▌ 18.8 %
 710 um █████████████████████████ 32.3 %
 500 um ███████████████████████▎ 30.0 %
 355 um ██████████ 13.0 %
    pan ███▏ 4.0 %
`);
  });

  test("is in proportion, to the eighth of a column", () => {
    const [double, single] = barLengths(
      retainedHistogram({ fractions: fractions("2000:60 1000:30 pan:10"), width: 60, height: 3 }),
    );
    expect(double! / single!).toBeCloseTo(2, 0);
  });

  test("shows the least fraction that is not nothing, and nothing for nothing", () => {
    const rows = retainedHistogram({ fractions: fractions("2000:0.01 1000:99.99 pan:0"), width: 40, height: 3 });
    expect(rows[0]).toContain("▏ 0.0 %");
    expect(rows[2]).toMatch(/pan {2}0\.0 %/);
  });

  test("sums neighbours where there are more fractions than rows, and loses nothing", () => {
    const rows = retainedHistogram({ fractions: filterSand, width: 50, height: 3 });
    expect(
      rows.map((row) =>
        row
          .replace(/[█▏▎▍▌▋▊▉]/g, "")
          .replace(/ +/g, " ")
          .trim(),
      ),
    ).toEqual(["1.40 mm to 1.00 mm 20.7 %", "710 um to 500 um 62.3 %", "355 um to pan 17.0 %"]);
  });

  test("of a test that weighed nothing has no bars", () =>
    expect(barLengths(retainedHistogram({ fractions: fractions("1000:0 pan:0"), width: 30, height: 2 }))).toEqual([
      0, 0,
    ]));

  test("fills its place exactly, whatever it is given", () =>
    fc.assert(
      fc.property(anyFractions, anyWidth, anyHeight, fc.boolean(), (given, width, height, ascii) =>
        expectToFill(retainedHistogram({ fractions: given, width, height, ascii }), width, height),
      ),
    ));
});

describe("density over the logarithm of size", () => {
  test("is a step between each two sieves; what is beyond them is told", () => {
    expect(picture(densityChart({ fractions: filterSand, width: 44, height: 10 }))).toBe(`
100┤
   │
   │          ▁▁▁▁▁▁▁▁▁▁▅▅▅▅▅▅▅▅▅▅
 50┤          ████████████████████
   │          ████████████████████▆▆▆▆▆▆▆▆▆
   │ ▇▇▇▇▇▇▇▇▇█████████████████████████████
  0┤ ██████████████████████████████████████
   └┬─────────┬─────────┬────────┬─────────┬
   355       500       710 um    1    1.4 mm
1.9 % above 1.40 mm, 4.0 % below 355 um
`);
  });

  test("gives one height to equal shares of equal ratios, another to the same share over two of them", () => {
    const heights = (text: string) => {
      const rows = densityChart({ fractions: fractions(text), width: 60, height: 20 });
      const filled = (column: number) => rows.filter((row) => /[▁-█]/.test(row[column] ?? "")).length;
      return [filled(10), filled(52)];
    };
    const [even, same] = heights("4000:0 2000:50 1000:50 pan:0");
    expect(even).toBe(same);
    const [fine, coarse] = heights("4000:0 2000:50 500:50 pan:0");
    expect(Math.abs(coarse! / fine! - 2)).toBeLessThan(0.2);
  });

  test("needs two sieves", () => {
    expect(densityChart({ fractions: fractions("1000:40 pan:60"), width: 40, height: 8 }).join("")).toContain(
      "two sieves make a step",
    );
  });

  test("fills its place exactly, whatever it is given", () =>
    fc.assert(
      fc.property(anyFractions, anyWidth, anyHeight, fc.boolean(), (given, width, height, ascii) =>
        expectToFill(densityChart({ fractions: given, width, height, ascii }), width, height),
      ),
    ));
});

describe("a grid on which a law is straight", () => {
  const log = Math.log10;
  const xTicks = [10, 100, 1000].map((um) => ({ at: log(um), label: String(um), unit: "um" }));
  const yTicks = [99, 1, 50].map((pct) => ({ at: log(-Math.log(1 - pct / 100)), label: String(pct) }));

  test("has its labels where the caller says they belong", () => {
    const drawn = gridChart({ points: [], xTicks, yTicks, width: 46, height: 14 });
    expect(drawn.at(-1)!.trim()).toMatch(/^10 +100 +1000 um$/);
    const rows = ["99", "50", "1"].map((label) => drawn.findIndex((row) => row.trimStart().startsWith(`${label}┤`)));
    expect(rows[0]).toBe(0);
    expect(rows[2]).toBe(11);
    const [low, middle, high] = [yTicks[1]!.at, yTicks[2]!.at, yTicks[0]!.at];
    expect(Math.abs(rows[1]! - 11 * (1 - (middle - low) / (high - low)))).toBeLessThan(1);
  });

  test("draws a straight line through points that lie on it", () => {
    const line = (x: number) => 2 * (x - 2);
    const points = [1.2, 1.6, 2, 2.4].map((x) => ({ x, y: line(x) }));
    const drawn = gridChart({ points, line, xTicks, yTicks: [], width: 60, height: 30 });
    const places = drawn
      .slice(0, -2)
      .flatMap((row, r) => [...row].flatMap((g, c) => (g === "●" ? [[c, r] as const] : [])));
    expect(places.length).toBe(4);
    for (const [column, row] of places) {
      const around = [row - 1, row, row + 1].flatMap((r) => [drawn[r]?.[column - 1], drawn[r]?.[column + 1]]);
      expect(around.join("")).toMatch(/[─╭╯│]/);
    }
  });

  test("leaves the line out where it runs off the grid", () => {
    const inside = gridChart({
      points: [],
      line: () => 5,
      xTicks,
      yTicks: [
        { at: 0, label: "0" },
        { at: 1, label: "1" },
      ],
      width: 40,
      height: 12,
    });
    expect(inside.slice(0, -2).join("")).not.toContain("─");
  });

  test("fills its place exactly, whatever it is given", () => {
    const anyNumber = fc.double();
    fc.assert(
      fc.property(
        fc.array(fc.record({ x: anyNumber, y: anyNumber })),
        fc.array(fc.double({ min: -9, max: 9, noNaN: true }), { maxLength: 9 }),
        anyWidth,
        anyHeight,
        (points, places, width, height) => {
          const ticks = places.toSorted((a, b) => a - b).map((at) => ({ at, label: at.toFixed(1) }));
          expectToFill(
            gridChart({ points, line: (x) => x, xTicks: ticks, yTicks: ticks, width, height }),
            width,
            height,
          );
        },
      ),
    );
  });
});

describe("sparkline", () => {
  test.each([
    [[1, 2, 3, null, 8], 10, "▁▂▃ █"],
    [[5, 5, 5], 10, "▄▄▄"],
    [[1, 9, 1, 9], 2, "▁█"],
    [[], 10, ""],
    [[null, Number.NaN], 10, "  "],
    [[1, 2], 0, ""],
    [[-2, -1], 5, "▁█"],
  ])("of %j in %i columns is %j", (values, width, drawn) => expect(sparkline(values, width)).toBe(drawn));

  test("in ASCII keeps eight heights apart", () => {
    const drawn = sparkline([0, 1, 2, 3, 4, 5, 6, 7], 8, true);
    expect(drawn).toMatch(/^[\x21-\x7e]{8}$/);
    expect(new Set(drawn).size).toBe(8);
  });
});

describe("a trend", () => {
  test("has the newest value at the right and its limits named", () => {
    const drawn = trendChart([742, 744, 739, 761, 755, 793], { min: 690, max: 790, width: 40, height: 8 });
    expect(picture(drawn)).toBe(`
   │                                  ╭●
790┤╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╭──╯╌
   │                      ╭●──╮  ╭─╯
   │     ●─────●──╮  ╭────╯   ╰──●
   │              ╰──●
   │
700┤
690┤╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌
`);
  });

  test("shows a limit at the height of an equal value", () => {
    const drawn = trendChart([10, 20, 15], { max: 20, width: 30, height: 9 });
    const limit = drawn.findIndex((row) => row.includes("╌"));
    expect(drawn[limit]).toContain("●");
    expect(drawn[limit]).toMatch(/^ *20┤/);
  });

  test("drops the oldest values where there are more than columns", () => {
    const values = [...Array.from({ length: 100 }, () => 0), ...Array.from({ length: 30 }, () => 10)];
    const drawn = trendChart(values, { width: 24, height: 6 });
    expect(drawn.filter((row) => /[─●]/.test(row)).length).toBe(1);
  });

  test("leaves a gap for what is missing, and shows a value that stands alone", () => {
    const drawn = trendChart([1, null, 3, null, 5], { width: 40, height: 7 });
    expect(drawn.join("").split("●").length - 1).toBe(3);
    expect(drawn.join("")).not.toMatch(/[─╭╯]/);
  });

  test.each([
    ["one value", [5]],
    ["equal values", [5, 5, 5, 5]],
    ["zeros", [0, 0, 0]],
    ["none", []],
    ["gaps only", [null, null]],
  ])("of %s has its place and no more", (_, values) => {
    const drawn = trendChart(values, { width: 30, height: 6 });
    expectToFill(drawn, 30, 6);
    expect(drawn.join("").includes("●")).toBe(values.some((value) => value !== null));
  });

  test("fills its place exactly, whatever it is given", () =>
    fc.assert(
      fc.property(
        fc.array(fc.option(fc.double({ min: -1e9, max: 1e9 }))),
        fc.option(fc.double({ min: -1e6, max: 1e6 })),
        anyWidth,
        anyHeight,
        fc.boolean(),
        (values, max, width, height, ascii) =>
          expectToFill(trendChart(values, { max, width, height, ascii }), width, height),
      ),
    ));
});
