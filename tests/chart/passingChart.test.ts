import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chartLegend, passingChart } from "../../src/chart/passingChart.ts";
import { anyHeight, anyPoints, anyWidth, envelope, expectToFill, logLinear, picture, sand } from "./drawing.ts";

const filterSand = sand("1400:98.1 1000:79.3 710:47 500:17 355:4");
const filterSandEnvelope = envelope("1400:95-100 1000:75-95 710:35-60 500:8-30 355:-10");

describe("a whole test", () => {
  test("is a curve inside its envelope, with d50 marked and its size dropped to the axis", () => {
    const drawn = passingChart({
      ...filterSand,
      envelope: filterSandEnvelope,
      mark: { sizeUm: 733, passingPct: 50 },
      width: 60,
      height: 15,
    });
    expect(picture(drawn)).toBe(`
100┤                                           ╌╌╌╌╌╌╌╌╌╌╭●
   │                                      ╌╌╌▾╌╌   ╭─────╯▴
   │                                   ╌╌╌╌  ●─────╯╌╌
 75┤                                ╌╌╌╌  ╭──╯╌╌╌
   │                             ╌╌╌╌ ╭───╯╌╌
   │                         ╌╌╌▾╌ ╭──╯╌╌╌
 50┤                     ╌╌╌╌╌ ╭●◆─╯╌╌╌
   │                 ╌╌╌╌╌ ╭───╯ ╌╌╌
   │             ╌▾╌╌╌  ╭──╯ ╌╌╌▴╌
 25┤        ╌╌╌╌╌╌  ╭───╯╌╌╌╌╌   ┊
   │  ╌╌╌╌╌╌╌╭────●─╯╌╌╌╌╌       ┊
   │ ▾───────╯    ▴╌╌            ┊
  0┤ ●                           ┊
   └─┬────────────┬─────────────┬────────────┬────────────┬─
    355          500           710 um        1        1.4 mm
`);
  });

  test("has a band of its own sign on both sides of the curve, from the first sieve to the last", () => {
    const band = filterSand.points.map(({ apertureUm, passingPct }) => ({
      apertureUm,
      lowPct: Math.max(0, passingPct - 12),
      highPct: Math.min(100, passingPct + 12),
    }));
    const plain = passingChart({ ...filterSand, width: 60, height: 15 });
    const drawn = passingChart({ ...filterSand, band, width: 60, height: 15 });
    expect(plain.join("")).not.toContain("·");
    for (const [i, row] of drawn.entries()) {
      expect(row.replaceAll("·", " ")).toBe(plain[i]);
    }
    const middle = drawn[6] ?? "";
    expect(middle.indexOf("·")).toBeLessThan(middle.search(/[●╭╯─]/));
    expect(middle.lastIndexOf("·")).toBeGreaterThan(middle.search(/[●╭╯─]/));
    expect(chartLegend({ band: true })).toContain("± ··");
    expect(chartLegend({ band: true, ascii: true })).toMatch(/^[\x20-\x7e]*$/);
  });

  test("is told in ASCII just as well", () => {
    const drawn = passingChart({ ...filterSand, envelope: filterSandEnvelope, width: 40, height: 10, ascii: true });
    expect(drawn.join("")).toMatch(/^[\x20-\x7e]*$/);
    for (const glyph of ["o", "v", "^", "=", "-", "'", "."]) expect(drawn.join("\n")).toContain(glyph);
  });
});

describe("the rows of a chart", () => {
  const rowsOf = (passingPct: number, height: number) => {
    const drawn = passingChart({ ...sand(`1000:${passingPct}`), width: 30, height });
    return drawn.findIndex((row) => row.includes("●"));
  };

  test("put 100 % on the first and 0 % on the last above the axis", () => {
    expect(rowsOf(100, 13)).toBe(0);
    expect(rowsOf(0, 13)).toBe(10);
    expect(rowsOf(50, 13)).toBe(5);
  });

  test("hold a point at the nearest one: 11 rows are tenths", () => {
    for (const pct of [4.9, 5.1, 14.9, 15.1, 87, 94.9, 95.1]) expect(rowsOf(pct, 13)).toBe(10 - Math.round(pct / 10));
  });

  test("are labelled as finely as there is room", () => {
    const labels = (height: number) =>
      passingChart({ ...filterSand, width: 40, height }).flatMap((row) => /^ *(\d+)┤/.exec(row)?.[1] ?? []);
    expect(labels(6)).toEqual(["100", "0"]);
    expect(labels(8)).toEqual(["100", "50", "0"]);
    expect(labels(12)).toEqual(["100", "75", "50", "25", "0"]);
    expect(labels(24)).toEqual(["100", "90", "80", "70", "60", "50", "40", "30", "20", "10", "0"]);
  });
});

describe("the axis of size", () => {
  const axis = (apertures: string, width: number) =>
    passingChart({ ...sand(apertures.replaceAll(" ", ":50 ").concat(":50")), width, height: 8 })
      .at(-1)!
      .trim();

  test("speaks of um below 1 mm and of mm from 1 mm", () => {
    expect(axis("1400 1000 710 500 355", 76)).toMatch(/^355 +500 +710 um +1 +1\.4 mm$/);
    expect(axis("710 500 355", 60)).toMatch(/^355 +500 +710 um$/);
    expect(axis("125000 63000 4000 1000", 60)).toMatch(/^1 +4 +63 +125 mm$/);
  });

  test("labels every sieve if there is room, else the ends first", () => {
    expect(axis("1400 1000 710 500 355", 21)).toMatch(/^355 +710 um +1\.4 mm$|^355 +500 um +1\.4 mm$/);
    expect(axis("1400 1000 710 500 355", 15)).toBe("1.4 mm");
  });

  test("has a tick for every sieve, labelled or not", () => {
    const ticks = passingChart({ ...filterSand, width: 24, height: 8 }).at(-2)!;
    expect(ticks.split("┬").length - 1).toBe(5);
  });

  test("is the same for equal ratios of size", () => {
    const ticks = passingChart({ ...sand("1000:90 100:50 10:20 1:5"), width: 64, height: 8 }).at(-2)!;
    const columns = [...ticks].flatMap((glyph, column) => (glyph === "┬" ? [column] : []));
    const gaps = columns.slice(1).map((column, i) => column - columns[i]!);
    expect(Math.max(...gaps) - Math.min(...gaps)).toBeLessThanOrEqual(1);
  });

  test("never lets labels touch", () =>
    fc.assert(
      fc.property(anyPoints, anyWidth, (points, width) => {
        const drawn = passingChart({ points, passingAt: logLinear(points), width, height: 8 });
        const labels = (drawn.at(-1) ?? "").trim();
        if (points.length > 0 && width >= 20) expect(labels).toMatch(/^[\d.e+-]+( [mu]m)?( +[\d.e+-]+( [mu]m)?)*$/);
      }),
    ));
});

describe("while the test is weighed", () => {
  test("the curve reaches as far down as it is known", () => {
    const upper = sand("1400:98.1 1000:79.3");
    const drawn = passingChart({ ...upper, aperturesUm: [710, 500, 355], width: 60, height: 12 });
    const curve = drawn.slice(0, -2).map((row) => row.slice(4));
    const columns = curve.flatMap((row) => [...row].flatMap((glyph, i) => (/[●─╭╯]/.test(glyph) ? [i] : [])));
    const axis = drawn.at(-2)!.slice(4);
    const ticks = [...axis].flatMap((glyph, i) => (glyph === "┬" ? [i] : []));
    expect(ticks.length).toBe(5);
    expect(Math.min(...columns)).toBe(ticks[3]);
    expect(Math.max(...columns)).toBe(ticks[4]);
  });

  test("its axis stays where it is when the stack is given", () => {
    const stack = [1400, 1000, 710, 500, 355];
    const axes = [[], ["1400:98"], ["1400:98", "1000:79"], ["1400:98", "1000:79", "710:47"]].map((known) =>
      passingChart({ ...sand(known.join(" ")), aperturesUm: stack, width: 50, height: 10 }).slice(-2),
    );
    for (const axis of axes) expect(axis).toEqual(axes[0]);
  });

  test("before the first sieve it says so", () => {
    expect(picture(passingChart({ ...sand(""), width: 24, height: 5 }))).toBe(`
100┤
   │
   │    no sieve yet
   │
  0┤
`);
  });
});

describe("odd tests", () => {
  test("an envelope alone is drawn as two broken lines", () => {
    const drawn = passingChart({ ...sand(""), envelope: filterSandEnvelope, width: 40, height: 10 });
    expect(drawn.join("")).toContain("▾");
    expect(drawn.join("")).toContain("▴");
    expect(drawn.join("")).not.toMatch(/[●╭╯]/);
  });

  test("a limit that is missing at one sieve breaks its line there", () => {
    const both = envelope("1000:50-90 500:30-70 250:10-50");
    const broken = envelope("1000:50-90 500:-70 250:10-50");
    const lower = (limits: typeof both) =>
      passingChart({ ...sand(""), envelope: limits, width: 60, height: 22 })
        .join("")
        .split("╌").length;
    expect(lower(broken)).toBeLessThan(lower(both) - 20);
  });

  test("one sieve stands in the middle", () => {
    const drawn = passingChart({ ...sand("500:40"), width: 34, height: 12 });
    expect(drawn.find((row) => row.includes("●"))!.indexOf("●")).toBe(19);
    expect(drawn.at(-1)!.trim()).toBe("500 um");
  });

  test("everything on one sieve is a cliff", () => {
    const drawn = passingChart({ ...sand("1000:100 500:0 250:0"), width: 40, height: 10 });
    expect(drawn[0]).toMatch(/╭●/);
    expect(drawn[7]).toMatch(/●─+●/);
  });

  test("everything in the pan is a line along the top", () => {
    const drawn = passingChart({ ...sand("1000:100 500:100 250:100"), width: 40, height: 10 });
    expect(drawn[0]).toMatch(/●─+●─+●/);
    expect(drawn.slice(1, 8).join("")).not.toMatch(/[●─]/);
  });

  test("a point outside its envelope hides neither curve nor limit", () => {
    const drawn = passingChart({
      ...sand("1000:40 500:20"),
      envelope: envelope("1000:75-95 500:5-30"),
      width: 40,
      height: 14,
    });
    expect(drawn.findIndex((row) => row.includes("▴"))).toBeLessThan(drawn.findIndex((row) => row.includes("●")));
  });

  test("numbers that are none are gaps", () => {
    const points = [
      { apertureUm: 1000, passingPct: Number.NaN },
      { apertureUm: 500, passingPct: 40 },
      { apertureUm: 0, passingPct: 10 },
      { apertureUm: Number.POSITIVE_INFINITY, passingPct: 90 },
    ];
    const drawn = passingChart({ points, passingAt: () => Number.NaN, width: 40, height: 10 });
    expectToFill(drawn, 40, 10);
    expect(drawn.join("").split("●").length - 1).toBe(1);
  });

  test("six powers of ten fit", () => {
    const drawn = passingChart({ ...sand("125000:100 1000:60 0.125:1"), width: 60, height: 12 });
    expect(drawn.at(-1)!.trim()).toMatch(/^0\.125 um +1 +125 mm$/);
  });
});

test("whatever is given, it fills its place exactly", () =>
  fc.assert(
    fc.property(anyPoints, anyPoints, anyWidth, anyHeight, fc.boolean(), (points, limits, width, height, ascii) => {
      const bounds = limits.map(({ apertureUm, passingPct }, i) => ({
        apertureUm,
        minPct: i % 3 === 0 ? null : passingPct / 2,
        maxPct: i % 4 === 0 ? null : passingPct,
      }));
      const mark = points[0] && { sizeUm: points[0].apertureUm, passingPct: 50 };
      const chart = { points, envelope: bounds, passingAt: logLinear(points), width, height, ascii };
      expectToFill(passingChart(mark ? { ...chart, mark } : chart), width, height);
    }),
  ));

test("a curve that never falls as size grows is drawn so", () =>
  fc.assert(
    fc.property(
      anyPoints,
      fc.integer({ min: 20, max: 120 }),
      fc.integer({ min: 8, max: 50 }),
      (points, width, height) => {
        const drawn = passingChart({ points, passingAt: logLinear(points), width, height }).slice(0, height - 2);
        expect(drawn.join("")).not.toMatch(/[╰╮]/);
      },
    ),
  ));

describe("the legend", () => {
  test("names what is drawn with the glyphs it is drawn with", () => {
    expect(chartLegend()).toBe("curve ──   measured ●");
    expect(chartLegend({ envelope: true, mark: "d50" })).toBe(
      "curve ──   measured ●   at most ╌▾╌   at least ╌▴╌   d50 ◆",
    );
  });

  test.each([false, true])("shows only glyphs that the chart uses (ASCII: %s)", (ascii) => {
    const chart = { ...filterSand, envelope: filterSandEnvelope, mark: { sizeUm: 733, passingPct: 50 } };
    const drawn = passingChart({ ...chart, width: 70, height: 20, ascii }).join("");
    const glyphs = chartLegend({ envelope: true, mark: "d50", ascii }).replace(
      /curve|measured|at most|at least|d50| /g,
      "",
    );
    for (const glyph of glyphs) expect(drawn).toContain(glyph);
  });

  test.each([false, true])("gives curve, limits, points and mark glyphs of their own (ASCII: %s)", (ascii) => {
    const words = chartLegend({ envelope: true, mark: "d50", ascii }).split("   ");
    const telling = words.map((word) => word.split(" ").at(-1)!);
    expect(new Set(telling).size).toBe(5);
  });
});
