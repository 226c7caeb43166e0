import { describe, expect, test } from "vitest";
import type { App } from "../../src/screens/place.ts";
import { anApp, recordedRow, Stage } from "./stage.ts";

describe("the bench with problems", () => {
  const bench = (change: Partial<App>) => new Stage(anApp(change)).screen();

  test("shows the latest of them, and why nothing can be recorded", () => {
    const problems = ["first: gone", "index/2026-10.json is behind", "log/2026/11/2026-11-23.json can't be read"];
    const screen = bench({ problems, readOnly: "another window has this station open (process 4711)" });
    expect(screen).toContain("! log/2026/11/2026-11-23.json can't be read");
    expect(screen).toContain("! index/2026-10.json is behind");
    expect(screen).not.toContain("first: gone");
    expect(screen).toContain("! read only: another window has this station open");
  });

  test("refuses there what would be recorded, and opens what can be read", () => {
    const readOnly = "another window has this station open";
    for (const key of ["n", "b"]) {
      expect(new Stage(anApp({ readOnly })).types(key).app).toMatchObject({
        message: readOnly,
        place: { name: "bench" },
      });
    }
    expect(new Stage(anApp({ readOnly })).scans("TH-BAR").app.message).toBe(readOnly);
    expect(new Stage(anApp({ readOnly })).presses("down", "enter").effects).toMatchObject([{ do: "open" }]);
  });
});

test("the clock stays in the title however long the plant's name and whoever is signed on", () => {
  const session = { initials: "SB", name: "S. Baro", role: "administrator" as const };
  const station = { ...anApp().station, plant: "A plant with a very long name indeed, by the river" };
  const [title = ""] = new Stage(anApp({ session, station })).lines();
  expect(title).toContain("11-24 03:12");
  expect(title).toContain("SB administrator");
});

test("the row of the mark is in sight in the lowest window too, down to the last recorded test", () => {
  const recent = Array.from({ length: 6 }, (_, i) => recordedRow(i + 1, `lot-${i}`));
  const problems = ["a first thing that was found wrong", "a second thing that was found wrong, and what to do"];
  const stage = new Stage(anApp({ recent, problems, readOnly: "another window has this station open" }));
  for (let row = 0; row < 8; row++) {
    const shown = stage.lines({ columns: 60, rows: 16 });
    expect(shown.filter((line) => line.startsWith("▸"))).toHaveLength(1);
    stage.presses("down");
  }
});
