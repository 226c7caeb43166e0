import { describe, expect, test } from "vitest";
import type { TestEntry } from "../../src/record/logEntry.ts";
import type { TrailItem } from "../../src/record/test.ts";
import { trailLine } from "../../src/report/trailWords.ts";
import { testOpened } from "../../src/screens/answers.ts";
import type { Size } from "../../src/screens/place.ts";
import { VIEWS } from "../../src/screens/result/views.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { EMPTY_G, FULL_G, Hands } from "../run/hands.ts";
import { anApp, recordedEntry, Stage } from "./stage.ts";

const entryWith = (change: Partial<TestEntry["test"]> = {}): TestEntry => {
  const entry = recordedEntry(7, "4471-B");
  return { ...entry, test: { ...entry.test, ...change } };
};
const opened = (entry = entryWith()) => new Stage(testOpened(anApp(), { entry, later: [] }));
const onTrail = (stage = opened()) => {
  for (const _view of VIEWS) stage.types("v");
  return stage;
};
const SIGNED = { program: "0.0.1", test: "valid", product: "pass", lossPct: 0.1 } as const;

describe("a recorded test", () => {
  test("says its number, when and by whom it was signed, and what became of the product", () => {
    expect(opened().screen()).toContain("no. 7 · 2026-11-22 02:07 · signed KO, initials not checked by PIN · released");
    expect(opened().screen({ columns: 120, rows: 30 })).toContain("TH-0510 rev 3 · lot 4471-B · Dryer 1");
  });

  test("says that shaking was cut short, and why", () => {
    const { shaking } = recordedEntry().test;
    const screen = opened(entryWith({ shaking: { ...shaking, skipped: "clamp loose" } })).screen();
    expect(screen.replace(/\s+/g, " ")).toContain("shaking cut short: clamp loose");
  });

  test("shows the verdicts that were signed, without a warning while the same are computed", () => {
    const screen = opened(entryWith({ signed: SIGNED })).screen();
    expect(screen).toContain("TEST VALID ✓  PASS ✓");
    expect(screen).not.toContain("computed otherwise");
  });

  test("signed otherwise than it is computed now still shows what was signed, and says so with the program's version", () => {
    const signed = { ...SIGNED, test: "invalid", product: "not judged" } as const;
    const lines = opened(entryWith({ signed })).lines();
    expect(lines[0]).toContain("TEST INVALID !  NOT JUDGED –");
    expect(lines.join(" ").replace(/\s+/g, " ")).toContain(
      "! signed as test invalid, product not judged (program 0.0.1); computed otherwise now: test valid, product pass",
    );
  });

  test("that can't be assessed any more says why, and keeps what was signed", () => {
    const [first, ...rest] = recordedEntry().test.weighings;
    const stage = opened(entryWith({ weighings: first ? [{ ...first, fullG: null }, ...rest] : rest, signed: SIGNED }));
    expect(stage.screen()).toContain("! can't be assessed any more: the 1.40 mm sieve is not weighed yet");
    expect(stage.lines()[0]).toContain("TEST VALID ✓  PASS ✓");
  });

  test("is judged against the revision copied into it, not against the library's", () => {
    const stage = opened();
    const strict = { ...recordedEntry().test.product, envelope: [{ apertureUm: 1000, passingPct: { max: 1 } }] };
    stage.app = { ...stage.app, products: [strict], revisions: [strict] };
    expect(stage.screen()).toContain("PASS ✓");
    expect(stage.screen()).toMatch(/1\.00 mm .* 75 – 95 +✓/);
  });

  test("can't be changed: no key of it types or signs", () => {
    const stage = opened();
    const before = stage.app.place;
    stage.types("rfu1").presses("backspace", "delete");
    stage.scans("412.31");
    expect(stage.app.place).toEqual(before);
    expect(stage.effects).toEqual([]);
  });

  test("leads into its values and back, and back to where one came from", () => {
    const stage = opened().types("w");
    expect(stage.app.place.name).toBe("values");
    expect(stage.presses("escape").app.place.name).toBe("record");
    expect(stage.presses("escape").app.place.name).toBe("bench");
  });
});

describe("the pages of a record", () => {
  const SIZES: readonly Size[] = [
    { columns: 60, rows: 16 },
    { columns: 80, rows: 24 },
    { columns: 120, rows: 40 },
    { columns: 160, rows: 50 },
  ];
  test.each(SIZES)("are those of the result and the trail, each within $columns x $rows", (size) => {
    const stage = opened();
    const first = stage.screen(size);
    for (let page = 0; page <= VIEWS.length; page++) {
      const lines = stage.lines(size);
      expect(lines).toHaveLength(size.rows - 1);
      for (const text of lines) expect(columnsOf(text)).toBeLessThanOrEqual(size.columns);
      stage.types("v");
    }
    expect(stage.screen(size)).toBe(first);
  });

  test("turn by Enter as well", () => {
    const stage = opened().presses("enter");
    expect(stage.screen()).toContain("is the test valid?");
  });
});

describe("the trail", () => {
  const item = (change: Partial<TrailItem>): TrailItem => ({
    at: "2026-11-24T03:12:05+01:00",
    field: "fullG",
    apertureUm: 710,
    from: null,
    to: 493.5,
    ...change,
  });

  test.each([
    [{}, "03:12:05  710 um full  493.5"],
    [{ from: 439.5 }, "03:12:05  710 um full  439.5 -> 493.5"],
    [{ from: 493.5, to: null, undo: true as const }, "03:12:05  710 um full  taken back: 493.5 -> nothing"],
    [{ apertureUm: 0, field: "emptyG" as const }, "03:12:05  pan empty  493.5"],
    [
      { warned: "the same mass as the one before" },
      "03:12:05  710 um full  493.5  (warned: the same mass as the one before)",
    ],
  ])("%# tells an entry in one line", (change, text) => {
    expect(trailLine(item(change))).toBe(text);
  });

  test("of a field without a sieve names the field, and nothing where nothing stood", () => {
    const { apertureUm: _apertureUm, ...plain } = item({ field: "remark", from: "", to: "lid rattled" });
    expect(trailLine(plain)).toBe("03:12:05  remark  lid rattled");
  });

  test("is the last page: every accepted entry in its order", () => {
    const screen = onTrail().screen({ columns: 100, rows: 40 });
    const { trail } = recordedEntry().test;
    expect(screen).toContain("every accepted entry");
    const lines = screen.split("\n").filter((text) => /^ +\d\d:\d\d:\d\d /.test(text));
    expect(lines.map((text) => text.trim())).toEqual(trail.map(trailLine));
  });

  test("longer than the window begins with the latest, says which entries are shown, and scrolls to the first", () => {
    const { trail } = recordedEntry().test;
    const stage = onTrail();
    const first = trailLine(trail[0] ?? item({}));
    expect(stage.screen()).toContain(`of ${trail.length})`);
    expect(stage.screen()).toContain(trailLine(trail.at(-1) ?? item({})));
    expect(stage.screen()).not.toContain(first);
    for (let i = 0; i < 60; i++) stage.presses("up");
    expect(stage.screen()).toContain(first);
    expect(stage.screen()).toContain("(1 to ");
    for (let i = 0; i < 60; i++) stage.presses("down");
    expect(stage.screen()).toContain(trailLine(trail.at(-1) ?? item({})));
  });

  test("shows what was taken back beside what came instead", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G).shakes().weighs(FULL_G).undoes().enters("358.61");
    const { trail } = hands.run.draft;
    const screen = onTrail(opened(entryWith({ trail }))).screen({ columns: 100, rows: 40 });
    expect(screen).toContain("pan full  taken back: 358.6 -> nothing");
    expect(screen).toContain("pan full  358.61");
  });

  test("the arrows move nothing on the other pages", () => {
    const stage = opened();
    const before = stage.screen();
    expect(stage.presses("up", "up", "down").screen()).toBe(before);
  });
});
