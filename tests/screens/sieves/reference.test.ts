import { describe, expect, test } from "vitest";
import type { ReferenceCheck } from "../../../src/record/care.ts";
import { referenceFound, referenceRowsRead } from "../../../src/screens/sieves/careAnswers.ts";
import { recordedRow, type Stage } from "../stage.ts";
import { atSieves, done, known, MATERIAL, recorded, S710 } from "./world.ts";

const WIDE = { columns: 110, rows: 40 };
const flat = (stage: Stage): string => stage.screen(WIDE).replace(/\s+/g, " ");
const material = MATERIAL as ReferenceCheck["material"];

/** The material is linear in log size from 2 % at 355 um to 99 % at 2 mm. */
const CHECK: ReferenceCheck = {
  did: "reference check",
  material: {
    ...material,
    points: [
      { apertureUm: 1400, passingPct: 90, expandedPct: 1 },
      { apertureUm: 1000, passingPct: 70, expandedPct: 1 },
      { apertureUm: 710, passingPct: 45, expandedPct: 1 },
      { apertureUm: 500, passingPct: 20, expandedPct: 1 },
    ],
  },
  testId: "t-1",
  found: [
    { apertureUm: 1400, serial: "S-1400-1", passingPct: 90.2, expandedPct: 1 },
    { apertureUm: 1000, serial: "S-1000-1", passingPct: 74.5, expandedPct: 5 },
    { apertureUm: 710, serial: S710, passingPct: 58, expandedPct: 1 },
  ],
};

const choosing = () => {
  const stage = atSieves(known()).presses("f4");
  stage.app = referenceRowsRead(stage.app, [recordedRow(2, "RM-RUN"), recordedRow(1)]);
  return stage;
};
const judged = () => {
  const stage = choosing().presses("enter").types("rm-run").presses("enter");
  stage.app = referenceFound(stage.app, CHECK);
  return stage;
};

describe("what was run before", () => {
  const before = known([done(CHECK, "2026-10-23T09:00:00+02:00", 800)]);

  test("is told before a material is chosen, with what was off", () => {
    const stage = atSieves(before).presses("f4");
    expect(flat(stage)).toContain("latest runs 2026-10-23 RM-SAND on 3 sieves, no. 800: off are S-0710-1");
    expect(flat(atSieves(known()).presses("f4"))).not.toContain("latest runs");
  });

  test("stands below what a new run says, sieve by sieve", () => {
    const stage = atSieves(before).presses("f4");
    stage.app = referenceRowsRead(stage.app, [recordedRow(2, "RM-RUN")]);
    stage.presses("enter").types("rm-run").presses("enter");
    stage.app = referenceFound(stage.app, CHECK);
    expect(flat(stage)).toMatch(
      /at the run before: S-1000-1 1\.0\d\d mm on 2026-10-23; S-0710-1 \d+(\.\d)? um on 2026-10-23/,
    );
    expect(flat(judged())).not.toContain("at the run before");
  });
});

describe("a check by a reference material", () => {
  test("begins with the registered materials, then the recorded tests, both narrowed as one types", () => {
    const stage = choosing();
    expect(stage.effects.at(-1)).toEqual({ do: "readReferenceRows" });
    expect(flat(stage)).toMatch(/▸ RM-SAND reference sand \(invented\) 2 points of 2026-02-01/);
    stage.types("zzz").presses("enter");
    expect(stage.app.message).toBe("nothing matches");
    stage.presses("escape", "enter");
    expect(flat(stage)).toContain("which recorded test is the run of RM-SAND?");
    stage.types("rm-run");
    expect(stage.screen()).not.toContain("4470-A");
    stage.presses("enter");
    expect(stage.effects.at(-1)).toMatchObject({
      do: "readReference",
      row: { lot: "RM-RUN" },
      material: { code: "RM-SAND" },
    });
  });

  test("without a registered material it says how one is registered", () => {
    const stage = atSieves(known([], [])).presses("f4");
    expect(flat(stage)).toContain("no reference material is registered: Esc, then F3 and file");
  });

  test("judges each sieve by En and z, and tells its effective aperture with its range", () => {
    const screen = flat(judged());
    expect(screen).toMatch(/S-1400-1 90\.20 90\.00 0\.14 0\.13 agrees ✓/);
    expect(screen).toMatch(/S-1000-1 74\.50 70\.00 0\.88 1\.96 agrees ✓/);
    expect(screen).toMatch(/S-0710-1 58\.00 45\.00 9\.19 5\.23 DISAGREES ✗ 8\d\d\.\d um/);
    expect(screen).toMatch(/effective apertures: .*S-0710-1 8\d\d\.\d um to 8\d\d\.\d um/);
    expect(screen).toContain("no result is changed");
  });

  test("is signed and recorded as a care entry", () => {
    const stage = judged();
    expect(recorded(stage)).toEqual([]);
    stage.presses("enter", "enter");
    expect(recorded(stage)).toEqual([{ kind: "care", by: "KO", care: CHECK }]);
  });

  test("is quality's: an operator sees the result and is told who may sign", () => {
    const stage = judged();
    stage.app = { ...stage.app, session: { initials: "KO", name: "K. Orr", role: "operator" } };
    expect(stage.presses("enter").app.message).toMatch(/measure or repair a sieve takes somebody of quality/);
    expect(recorded(stage)).toEqual([]);
  });

  test("warns where the test tells no serials", () => {
    const stage = choosing().presses("enter", "enter");
    const found = CHECK.found.map(({ serial: _serial, ...rest }) => rest);
    stage.app = referenceFound(stage.app, { ...CHECK, found });
    expect(flat(stage)).toContain("! the test tells no serials: what is recorded joins the life of no sieve");
  });

  test("Esc goes back step by step", () => {
    const stage = judged().presses("escape");
    expect(stage.app.place).toMatchObject({ step: "test", check: null });
    stage.presses("escape", "escape");
    expect(stage.app.place.name).toBe("sieves");
  });

  test.each([
    [60, 16],
    [80, 24],
  ])("fits %i x %i", (columns, rows) => {
    for (const stage of [choosing(), choosing().presses("enter"), judged()]) {
      const lines = stage.lines({ columns, rows });
      expect(lines.length).toBeLessThan(rows);
      for (const text of lines) expect(text.length).toBeLessThanOrEqual(columns);
    }
    expect(judged().screen({ columns, rows })).toContain("signed by");
  });
});
