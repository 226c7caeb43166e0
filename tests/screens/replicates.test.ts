import { describe, expect, test } from "vitest";
import type { Place } from "../../src/screens/place.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { entryWith } from "./deckStreams.ts";
import { anApp, Stage } from "./stage.ts";

const NETS = [10, 50, 90, 80, 50, 20];
const moved = (number: number, g: number) =>
  entryWith(
    number,
    "R-1",
    NETS.map((net, i) => (i === 2 ? net + g : i === 3 ? net - g : net)),
  );
const lotOf = (...entries: ReturnType<typeof moved>[]): Place => ({
  name: "lot",
  product: "TH-0510",
  lot: "R-1",
  line: "Dryer 1",
  histories: entries.map((entry) => ({ entry, later: [] })),
  at: 0,
});
const onLot = (...entries: ReturnType<typeof moved>[]) => new Stage(anApp({ place: lotOf(...entries) }));
const scatter = () => onLot(moved(1, 0), moved(2, 3), moved(3, -3)).types("v");

describe("how the tests of a lot scatter", () => {
  test("v on the lot shows mean, s_r and r of every figure, by hand at 710 um", () => {
    const screen = scatter().screen();
    // 50, 49 and 51 % pass: s_r is 1 %, r 2.8 %.
    expect(screen).toMatch(/passing 710 um +50\.00 % +1\.00 % +2\.80 %/);
    expect(screen).toContain("tests no. ▸1  2  3");
    expect(screen).toMatch(/figures? scatter more than the budget states/);
  });

  test("the figure in hand is told in words, with Grubbs and its critical values", () => {
    const screen = scatter().presses("down", "down").screen();
    expect(screen).toContain("passing 710 um: mean of 3 50.00 %, s_r 1.00 %, r 2.80 %");
    expect(screen).toMatch(/Grubbs: no\. \d lies 1\.000 standard deviations off, critical 1\.154 at 5 %/);
  });

  test("x takes the test in hand out of the figures and in again; the record is not touched", () => {
    const stage = scatter().presses("right").types("x");
    expect(stage.screen()).toContain("1 ▸(2)  3");
    expect(stage.screen()).toMatch(/passing 710 um +50\.50 %/);
    expect(stage.effects).toEqual([]);
    expect(stage.types("x").screen()).toMatch(/passing 710 um +50\.00 %/);
    const few = scatter().types("x").presses("right").types("x");
    expect(few.screen()).toContain("fewer than two tests are left");
  });

  test("one test alone can't scatter", () =>
    expect(onLot(moved(1, 0)).types("v").app).toMatchObject({
      place: { name: "lot" },
      message: "it takes two tests to see how they scatter",
    }));

  test("a test that is invalid is left out and named", () => {
    const bad = moved(3, 0);
    const signed = { ...bad.test.signed, test: "invalid" as const };
    const stage = onLot(moved(1, 0), moved(2, 3), { ...bad, test: { ...bad.test, signed } }).types("v");
    expect(stage.screen()).toContain("! left out: no. 3, the test is invalid");
  });

  test("fits every window, and Esc leads back to the lot", () => {
    for (const size of [
      { columns: 60, rows: 16 },
      { columns: 80, rows: 24 },
      { columns: 120, rows: 40 },
    ]) {
      const lines = scatter().lines(size);
      expect(lines.length).toBeLessThan(size.rows);
      for (const line of lines) expect(columnsOf(line)).toBeLessThanOrEqual(size.columns);
    }
    expect(scatter().presses("escape").app.place.name).toBe("lot");
  });
});
