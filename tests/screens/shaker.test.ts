import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { demoPrograms } from "../../src/demo/library.ts";
import type { Program } from "../../src/record/program.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { anApp, Stage } from "./stage.ts";

const program = (code: string, change: Partial<Program> = {}): Program => ({
  schema: "sievewright.program/1",
  code,
  name: "invented",
  motion: "vertical throw",
  durationS: 600,
  frequencyHz: 50,
  strokeMm: 1.2,
  ...change,
});

const at = (...programs: Program[]) => new Stage(anApp({ programs })).types("m");

const figure = (stage: Stage, label: string): string => {
  const found = stage.lines({ columns: 120, rows: 40 }).find((line) => line.startsWith(`  ${label}  `));
  if (found === undefined) throw new Error(`no row ${label}`);
  return found.slice(23, 46).trim();
};

describe("the motion of the programs", () => {
  test("is reached from the bench by m, and Esc leads back", () => {
    const stage = at(...demoPrograms());
    expect(stage.app.place).toEqual({ name: "shaker", at: 0, restated: false });
    expect(stage.presses("escape").app.place.name).toBe("bench");
  });

  test("shows stroke peak to peak, acceleration, throw, flight and the one-period strokes", () => {
    const stage = at(program("TH-V10"));
    expect(figure(stage, "frequency")).toBe("50 Hz");
    expect(figure(stage, "stroke")).toBe("1.20 mm peak to peak");
    // 0.0006 m (100 pi)^2 / 9.80665 m/s2
    expect(figure(stage, "peak acceleration")).toBe("6.04 g");
    expect(figure(stage, "throw number")).toBe("6.04");
    expect(figure(stage, "flight time")).toBe("38.9 ms");
    expect(figure(stage, "flight / period")).toBe("1.95");
    expect(figure(stage, "one period at 50 Hz")).toBe("0.655 mm peak to peak");
    expect(figure(stage, "one period at 60 Hz")).toBe("0.455 mm peak to peak");
  });

  test("has all eight figures and the plot with the program's own point on 80x24", () => {
    const screen = at(program("TH-V10")).screen();
    for (const label of ["frequency", "flight / period", "one period at 60 Hz"]) expect(screen).toContain(label);
    expect(screen).toMatch(/2┤ +●─+/);
    expect(screen).toMatch(/1┤ +╭─+◆╯/);
    expect(screen).toContain("One-period stroke:");
    expect(screen).toContain("found by test");
  });

  test("keeps the eight figures on the smallest screen", () => {
    const screen = at(program("TH-V10"), program("TH-V11")).screen({ columns: 60, rows: 16 });
    expect(screen).toContain("one period at 60 Hz  0.455 mm peak to peak");
    expect(screen).toContain("▸  TH-V10");
  });

  test("says what throws nothing, and what lacks a setting, in full", () => {
    const stage = at(...demoPrograms());
    const seen = demoPrograms().map(() => {
      const screen = stage.screen({ columns: 60, rows: 16 }).replace(/\s+/g, " ");
      stage.presses("down");
      return screen;
    });
    expect(seen[1]).toContain("! horizontal circular: grains are not thrown, so none fly");
    expect(seen[2]).toContain("! horizontal circular with tapping: grains are not thrown, so none fly");
    const { strokeMm: _stroke, ...strokeless } = program("TH-V12");
    expect(at(strokeless).screen()).toContain("! the program gives neither stroke nor acceleration");
  });

  test("says that a gentle program lifts nothing", () => {
    const stage = at(program("TH-V01", { strokeMm: 0.1 }));
    expect(figure(stage, "flight time")).toBe("none: nothing lifts");
    expect(figure(stage, "flight / period")).toBe("0");
  });

  test("says that a program contradicts itself", () =>
    expect(at(program("TH-V10", { peakAccelerationG: 3 })).screen()).toContain(
      "! the program states 3 g, its stroke gives another: taken by the stroke",
    ));

  test("of an empty library says so, and no key breaks anything", () => {
    const stage = at().types("r").presses("down", "up");
    expect(stage.screen()).toContain("no sieving program in this library");
    expect(stage.presses("escape").app.place.name).toBe("bench");
  });
});

describe("Up and Down", () => {
  test("choose a program, which is then marked and named, and stop at the ends", () => {
    const stage = at(program("A"), program("B"), program("C", { strokeMm: 0.6 })).presses("down", "down", "down");
    expect(stage.app.place).toMatchObject({ at: 2 });
    expect(stage.screen()).toMatch(/▸ +C /);
    expect(stage.lines()[0]).toMatch(/ C $/);
    expect(figure(stage, "stroke")).toBe("0.600 mm peak to peak");
    expect(stage.presses("up", "up", "up").app.place).toMatchObject({ at: 0 });
  });

  test("keep the one in hand in sight among many", () => {
    const many = Array.from({ length: 12 }, (_, i) => program(`P-${i}`));
    const stage = at(...many);
    for (let i = 0; i < 9; i++) stage.presses("down");
    expect(stage.screen()).toMatch(/▸ +P-9 /);
    expect(stage.screen({ columns: 60, rows: 16 })).toMatch(/▸ +P-9 /);
  });
});

describe("r", () => {
  test("restates 50 Hz for 60 Hz: 25/36 of the stroke, the same acceleration, and says so", () => {
    const stage = at(program("TH-V10")).types("r");
    expect(figure(stage, "frequency")).toBe("60 Hz");
    expect(figure(stage, "stroke")).toBe("0.833 mm peak to peak");
    expect(figure(stage, "peak acceleration")).toBe("6.04 g");
    expect(figure(stage, "flight time")).toBe("32.5 ms");
    expect(stage.screen()).toContain("restated for 60 Hz at equal acceleration; written: 1.20 mm peak to peak");
  });

  test("restates 60 Hz for 50 Hz, and pressed again shows the program as written", () => {
    const stage = at(program("TH-V60", { frequencyHz: 60, strokeMm: 0.5 })).types("r");
    expect(figure(stage, "stroke")).toBe("0.720 mm peak to peak");
    stage.types("r");
    expect(figure(stage, "stroke")).toBe("0.500 mm peak to peak");
    expect(stage.screen()).not.toContain("restated");
  });

  test("is of one program: the next one is shown as written", () => {
    const stage = at(program("A"), program("B")).types("r").presses("down");
    expect(figure(stage, "frequency")).toBe("50 Hz");
  });

  test("is refused in words where it means nothing", () => {
    expect(
      at(program("A", { frequencyHz: 42 }))
        .types("r")
        .screen(),
    ).toContain("only a program at 50 or 60 Hz");
    expect(
      at(program("A", { motion: "hand" }))
        .types("r")
        .lines()
        .at(-3),
    ).toContain("not thrown");
    expect(at().types("r").lines().at(-3)).toContain("no sieving program");
  });

  test("changes no program: the library is as it was", () => {
    const stage = at(program("TH-V10"));
    const before = stage.app.programs;
    stage.types("r").presses("escape");
    expect(stage.app.programs).toBe(before);
    expect(stage.effects).toEqual([]);
  });
});

test("whatever the program and the window: no frame too high or too wide, and no NaN in it", () =>
  fc.assert(
    fc.property(
      fc.double({ min: 0.001, max: 99, noNaN: true }),
      fc.double({ min: 0.1, max: 999, noNaN: true }),
      fc.integer({ min: 60, max: 160 }),
      fc.integer({ min: 16, max: 50 }),
      fc.boolean(),
      (strokeMm, frequencyHz, columns, rows, restated) => {
        const stage = at(program("A", { strokeMm, frequencyHz }), program("B"));
        if (restated) stage.types("r");
        const lines = stage.lines({ columns, rows });
        expect(lines).toHaveLength(rows - 1);
        for (const line of lines) {
          expect(columnsOf(line)).toBeLessThanOrEqual(columns);
          expect(line).not.toMatch(/NaN|undefined|Infinity/);
        }
      },
    ),
    { numRuns: 60 },
  ));

test("help tells of every key, from the same table as the footer", () => {
  const stage = at(program("A")).types("?");
  expect(stage.screen({ columns: 120, rows: 60 })).toContain("The program for the other mains frequency");
  expect(stage.presses("escape").app.place.name).toBe("shaker");
});
