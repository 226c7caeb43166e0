import { describe, expect, test } from "vitest";
import { blockColumns, blockRows, isDrawn, scaleFor } from "../../../src/screens/big/blocks.ts";
import { frameOf } from "../../../src/screens/frame.ts";
import { textOf } from "../../../src/screens/line.ts";
import { asciiTwin } from "../../../src/terminal/asciiTwin.ts";
import { columnsOf } from "../../../src/terminal/sanitise.ts";
import { EMPTY_G } from "../../run/hands.ts";
import { Stage } from "../stage.ts";

const SMALL = { columns: 60, rows: 16 };
const USUAL = { columns: 80, rows: 24 };

/** What stands in block figures on a screen, read back by matching the rows of each figure against the drawing. */
const holds = (lines: readonly string[], text: string, columns: number, rows: number): boolean => {
  const scale = scaleFor(text.length < 7 ? text.padEnd(7, "0") : text, columns, rows);
  if (scale === null) return false;
  const wanted = blockRows(text, scale).map((row) => ` ${row}`.trimEnd());
  return lines.some((_, at) => wanted.every((row, i) => lines[at + i]?.trimEnd() === row));
};
const anyScale = (lines: readonly string[], text: string): boolean =>
  [5, 10, 15, 20, 25, 30].some((rows) => [58, 78, 98, 118, 158].some((columns) => holds(lines, text, columns, rows)));

const weighing = () => new Stage().types("n").presses("enter", "enter", "enter", "enter").enters("300.2");
const weighingFull = () => {
  const stage = weighing();
  for (const mass of EMPTY_G) stage.enters(String(mass));
  return stage.presses("enter").waits(601).presses("enter");
};

describe("block figures", () => {
  test("keep apart from one another by two points at least", () => {
    const drawn = [..."0123456789"].map((c) => blockRows(c, { across: 1, down: 1 }).join(""));
    for (const [i, a] of drawn.entries())
      for (const b of drawn.slice(i + 1)) {
        const off = [...a].filter((point, at) => point !== b[at]).length;
        expect(off).toBeGreaterThanOrEqual(2);
      }
  });

  test("there are for every sieve and every mass", () => {
    for (const text of ["1.40 mm", "710 um", "pan", "Boden", "fondo", "1,40 mm", "0.521 kg", "521,4 g", "-0.3_"])
      expect(isDrawn(text)).toBe(true);
  });

  test("are as large as fits, and no larger", () => {
    expect(scaleFor("521.40_", 78, 10)).toEqual({ across: 2, down: 1 });
    expect(scaleFor("pan", 158, 30)?.down).toBeGreaterThan(3);
    expect(scaleFor("521.40_", 20, 10)).toBe(null);
    for (const columns of [30, 60, 100, 200]) {
      const scale = scaleFor("710 um", columns, 40);
      if (scale) expect(blockColumns("710 um", scale)).toBeLessThanOrEqual(columns);
    }
  });
});

describe("x while weighing", () => {
  test.each([SMALL, USUAL, { columns: 160, rows: 50 }])("shows sieve and value in block figures at %j", (size) => {
    const stage = weighing().types("x").types("412.3");
    const lines = stage.lines(size);
    expect(anyScale(lines, "1.40 mm")).toBe(true);
    expect(anyScale(lines, "412.3_")).toBe(true);
    expect(lines.length).toBe(size.rows - 1);
    expect(Math.max(...lines.map(columnsOf))).toBeLessThanOrEqual(size.columns);
  });

  test("keeps the figures' size while one types", () => {
    const stage = weighing().types("x");
    const heights = [..."412.31"].map(
      (c) =>
        stage
          .types(c)
          .lines()
          .filter((line) => line.includes("█")).length,
    );
    expect(new Set(heights.slice(1)).size).toBe(1);
  });

  test("leaves every key as it was: digits type, Enter accepts, u takes back, x returns", () => {
    const stage = weighing().types("x").enters("412.31");
    expect(anyScale(stage.lines(), "1.00 mm")).toBe(true);
    expect(stage.screen()).toContain("empty, in g · saved ✓");
    stage.types("u");
    expect(anyScale(stage.lines(), "1.40 mm")).toBe(true);
    expect(stage.types("x").screen()).toContain("aperture");
  });

  test("says in words that a mass is doubted and how to go on, at the smallest size too", () => {
    const stage = weighingFull().types("x").enters("412");
    for (const size of [SMALL, USUAL]) {
      const words = stage.screen(size).replace(/\s+/g, " ");
      expect(words).toContain("! ");
      expect(words).toContain("Enter again accepts it, another mass replaces it");
    }
  });

  test("says what the last mass made of its sieve", () => {
    const stage = weighingFull().types("x").enters("418.02");
    expect(stage.screen()).toContain("1.40 mm net 5.71 g, passing 98.1 % ✓");
  });

  test("says while the disk is being waited for, and that it refused", () => {
    const stage = weighing().types("x").enters("412.31");
    stage.app = { ...stage.app, saved: new Map() };
    expect(stage.screen()).toContain("saving …");
    stage.app = { ...stage.app, notOnDisk: "no space" };
    expect(stage.screen()).toContain("NOT ON DISK !");
  });

  test("is drawn with # where the terminal has no Unicode", () => {
    const drawn = asciiTwin(weighing().types("x").types("8").lines().join("\n"));
    expect(drawn).toMatch(/^[\x20-\x7e\n]*$/);
    expect(drawn).toContain("####");
  });

  test("nothing of it elsewhere: the shaking and the result are as ever", () => {
    const stage = weighing().types("x");
    for (const mass of EMPTY_G) stage.enters(String(mass));
    expect(frameOf(stage.app, USUAL).map(textOf).join()).not.toContain("██");
  });
});
