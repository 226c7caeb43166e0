import { describe, expect, test } from "vitest";
import type { Role } from "../../../src/record/roles.ts";
import { anApp, Stage } from "../stage.ts";
import { atSieves, done, ITEMS, known, S710, tests } from "./world.ts";

const WIDE = { columns: 130, rows: 40 };
const row = (stage: Stage, serial: string, size = WIDE): string =>
  stage.lines(size).find((text) => text.includes(serial)) ?? "";
const signedOn = (role: Role) => ({ session: { initials: "KO", name: "K. Orr", role } });

describe("the list of sieves", () => {
  test("is entered from the bench, and says so while nothing has been read", () => {
    const stage = new Stage().types("s");
    expect(stage.app.place.name).toBe("sieves");
    expect(stage.effects).toEqual([{ do: "readCare" }]);
    expect(stage.screen()).toContain("reading ...");
    expect(stage.presses("enter").app.message).toMatch(/still reading/);
  });

  test("shows each sieve under its set: state in word and sign, use since its inspection, when it is due", () => {
    const stage = atSieves(known(tests(39)));
    const screen = stage.screen(WIDE);
    expect(screen).toMatch(/5 sieves · 1 set · 4 due · 1 out of service/);
    expect(screen.indexOf("SET-A · set A")).toBeLessThan(screen.indexOf("S-1400-1"));
    expect(screen.indexOf("in no set")).toBeLessThan(screen.indexOf("S-0355-9"));
    expect(row(stage, S710)).toMatch(/710 um {2}due ~ +39 +0 +4\.7 +39\/40 tests/);
    expect(row(stage, "S-0355-9")).toMatch(/355 um {2}retired – +0/);
  });

  test("says where part of the log can't be read, so that nobody takes its counts for all there was", () => {
    const words = "part of the log can't be read: counts, masses and runs here may be fewer";
    expect(atSieves({ ...known(tests(3)), short: true }).screen(WIDE)).toContain(words);
    expect(atSieves(known(tests(3))).screen(WIDE)).not.toContain(words);
  });

  test("tells an overdue sieve from a due one and from one that is fit", () => {
    const state = (count: number) => row(atSieves(known(tests(count))), S710);
    expect(state(3)).toMatch(/fit ✓ +3 .*2027-04-02/);
    expect(state(36)).toContain("due ~");
    expect(state(41)).toMatch(/OVERDUE ! .*41\/40 tests/);
  });

  test("marks an empty mass that is told, and says of the marked row what to do", () => {
    const stage = atSieves(known(tests(30, { from: 14, eachG: 0.03 })));
    expect(row(stage, S710)).toMatch(/\+0\.\d\d !/);
    expect(row(stage, "S-1000-1")).not.toContain("!");
    stage.types("0710");
    expect(stage.screen()).toMatch(/! the 710 um sieve \(S-0710-1\) weighs 0\.\d+ g more than when clean, slowly/);
  });

  test("filters as one types, by serial, aperture, set and state, and opens the marked sieve", () => {
    const stage = atSieves(known(tests(39))).types("retired");
    expect(stage.screen()).toContain("S-0355-9");
    expect(stage.screen()).not.toContain(S710);
    stage.presses("escape").types("710 um").presses("enter");
    expect(stage.app.place).toMatchObject({ name: "sieve", serial: S710 });
    expect(stage.effects.at(-1)).toEqual({ do: "readSieve", serial: S710 });
    stage.presses("escape").types("nowhere").presses("enter");
    expect(stage.app.message).toBe("nothing matches");
    expect(stage.screen()).toContain("nothing matches");
  });

  test("a scanned serial opens the sieve", () => {
    expect(atSieves().scans(S710).app.place).toMatchObject({ name: "sieve", serial: S710 });
  });

  test("F2 leads to all else: calibrations due, the latest check, sets, materials", () => {
    const stage = atSieves().presses("f2");
    const screen = stage.screen(WIDE);
    expect(screen).toMatch(/B1 +balance +due ~ +calibration due on 2026-12-10; never checked; 3100 g by 0\.01 g/);
    expect(screen).toMatch(/W500 +check weight +OVERDUE ! +500\.00 g F1; certificate overdue since 2026-10-20/);
    expect(screen).toMatch(/SET-A +set +– +4 sieves: S-1400-1/);
    expect(screen).toMatch(/RM-SAND +reference material/);
    expect(stage.types("W500").screen()).toContain("certificate overdue since 2026-10-20");
    stage.presses("escape", "f2");
    expect(stage.screen()).toContain(S710);
  });

  test("a check of the balance is told with its result", () => {
    const check = { at: "2026-11-23T06:00:00+01:00", balance: "B1", by: "KO" };
    const reading = { nominalG: 500, readG: 500.2, toleranceG: 0.03 };
    const entry = { ...done({ did: "quarantine", serials: [S710], reason: "x" }), kind: "balance check" as const };
    const { care: _care, ...sealed } = entry as typeof entry & { care?: unknown };
    const failed = known([{ ...sealed, kind: "balance check", check: { ...check, readings: [reading] } }]);
    expect(atSieves(failed).presses("f2").screen(WIDE)).toContain("checked 2026-11-23: FAILED ✗");
  });

  test("says what to do where nothing is registered", () => {
    expect(atSieves(known([], [])).screen()).toContain("no sieve is registered yet: F3 registers one");
    expect(atSieves(known([], [])).presses("f2").screen()).toContain("nothing else is registered yet");
  });

  test("what moved all empty masses together is told once, as the balance", () => {
    const shifted = tests(30).map((entry, i) =>
      entry.kind === "test" && i >= 20
        ? {
            ...entry,
            test: {
              ...entry.test,
              weighings: entry.test.weighings.map((w) => ({
                ...w,
                emptyG: Number(((w.emptyG ?? 0) + 0.3).toFixed(2)),
              })),
            },
          }
        : entry,
    );
    const screen = atSieves(known(shifted)).screen(WIDE);
    expect(screen).toMatch(/! .*balance/);
  });

  test("only quality registers; nobody where nothing can be recorded", () => {
    expect(atSieves(known(), signedOn("operator")).presses("f3").app.message).toMatch(
      /register sieves and weights takes/,
    );
    expect(atSieves(known(), { readOnly: "another window" }).presses("f3").app.message).toBe("another window");
    expect(atSieves(known(), signedOn("quality")).presses("f3").app.place.name).toBe("careForm");
  });

  test("a material is registered anew from its file, not by a form", () => {
    const stage = atSieves().presses("f2").types("RM-").presses("enter");
    expect(stage.app.message).toMatch(/RM-SAND is registered anew from its file/);
  });
});

test.each([
  [60, 16],
  [80, 24],
  [120, 40],
])("both lists fit %i x %i, the marked row in sight", (columns, rows) => {
  for (const stage of [atSieves(known(tests(30))), atSieves().presses("f2")]) {
    for (let down = 0; down < ITEMS.length; down++) {
      stage.presses("down");
      const lines = stage.lines({ columns, rows });
      expect(lines.length).toBeLessThan(rows);
      for (const text of lines) expect(text.length).toBeLessThanOrEqual(columns);
      expect(lines.some((text) => text.startsWith("▸"))).toBe(true);
    }
  }
});

test("a serial scanned on the bench opens the sieve; what is neither product nor sieve says so", () => {
  const stage = new Stage(anApp({ care: known() })).scans("s-0710-1");
  expect(stage.app.place).toMatchObject({ name: "sieve", serial: S710 });
  stage.presses("escape").scans("4711");
  expect(stage.app.message).toBe('"4711" is not a product of this library, nor a registered sieve');
});

test("the bench alone needs nothing of it", () => {
  expect(new Stage(anApp()).screen()).toContain("s sieves");
});

test("each width shows what says most: narrow no counts, wide the cleaned level and where it is kept", () => {
  const stage = atSieves(known(tests(30)));
  const narrow = stage.screen({ columns: 60, rows: 24 });
  expect(narrow).toMatch(/S-0710-1 +710 um {2}fit ✓ +2027-04-02/);
  expect(narrow).not.toContain("tests   min");
  expect(stage.screen({ columns: 120, rows: 24 })).toMatch(/S-0710-1 .* 2027-04-02 +402\.00 +0\.00 +rack 2/);
});
