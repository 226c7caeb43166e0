import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { frameOf } from "../../src/screens/frame.ts";
import { textOf } from "../../src/screens/line.ts";
import type { Size } from "../../src/screens/place.ts";
import type { Key, NamedKey } from "../../src/terminal/keys.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { anApp, recordedRow, Stage } from "./stage.ts";

const SIZES = [
  [80, 24],
  [60, 16],
  [100, 30],
  [120, 40],
  [160, 50],
  [61, 90],
] as const;

const named: NamedKey[] = ["enter", "up", "down", "escape", "backspace", "page down", "f1", "tab", "delete"];
const anyKey: fc.Arbitrary<Key> = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(...named).map((name) => ({ name })) },
  {
    weight: 4,
    arbitrary: fc.constantFrom(..."nlpuevrofsd?1234567890.,-+kgz").map((text) => ({ name: "char" as const, text })),
  },
  {
    weight: 1,
    arbitrary: fc
      .constantFrom("TH-BAR", "+ 412.31 g", "‮evil\u001b[2J", "x".repeat(300))
      .map((text) => ({ name: "entry" as const, text, ended: true })),
  },
);

test("whatever is pressed: no crash, no frame as high as the terminal or wider than it", () => {
  const rows = Array.from({ length: 30 }, (_, i) => recordedRow(i + 1, `lot-${i}`));
  fc.assert(
    fc.property(
      fc.array(anyKey, { minLength: 1, maxLength: 80 }),
      fc.constantFrom(...SIZES),
      (keys, [columns, height]) => {
        const stage = new Stage(anApp({ recent: rows }));
        for (const key of keys) {
          stage.key(key);
          const lines = frameOf(stage.app, { columns, rows: height }).map(textOf);
          expect(lines.length).toBeLessThan(height);
          for (const line of lines) expect(columnsOf(line)).toBeLessThanOrEqual(columns);
        }
      },
    ),
    { numRuns: 60 },
  );
});

test("whatever is pressed: a draft in which something was accepted never leaves the bench unless recorded", () => {
  fc.assert(
    fc.property(fc.array(anyKey, { maxLength: 60 }), (keys) => {
      const stage = new Stage();
      stage
        .types("n")
        .presses("enter", "enter", "enter", "enter")
        .types("300")
        .presses("enter")
        .types("412.31")
        .presses("enter");
      const id = stage.app.drafts[0]?.testId;
      for (const key of keys) stage.key(key);
      expect(stage.app.drafts.some((draft) => draft.testId === id)).toBe(true);
    }),
    { numRuns: 60 },
  );
});

describe("the frame", () => {
  test("fills the terminal less its last row", () => {
    expect(new Stage().lines({ columns: 80, rows: 24 })).toHaveLength(23);
  });

  test("says what it needs in a window too small, and keeps what was typed", () => {
    const stage = new Stage().types("n").types("th");
    expect(stage.screen({ columns: 50, rows: 12 })).toContain("needs 60x16");
    expect(stage.screen()).toContain("th▌");
  });

  test("tells escape sequences in a scanned text by visible marks, never raw", () => {
    const stage = new Stage().scans("\u001b[2Jx");
    expect(stage.screen()).toContain("not a product of this library");
  });
});

describe("the keys at the bottom", () => {
  const bottom = (size: Size) => {
    const lines = new Stage().lines(size);
    return lines.slice(lines.findLastIndex((row) => /^─+$/.test(row)) + 1).map((row) => row.trim());
  };

  test("are all there from 24 rows on, help at their end", () => {
    const two = bottom({ columns: 80, rows: 24 });
    expect(two).toHaveLength(2);
    for (const word of ["open", "sieves", "handover", "line", "lot", "motion", "leave"])
      expect(two.join(" ")).toContain(word);
    expect(two[1]).toMatch(/\? help$/);
    expect(bottom({ columns: 160, rows: 50 })).toHaveLength(1);
  });

  test("are in a low window the first ones, with a word that there are more", () => {
    const [only = "", ...more] = bottom({ columns: 60, rows: 16 });
    expect(more).toEqual([]);
    expect(only).toMatch(/^Enter open {2}n new .*… {2}\? help$/);
  });

  test("end with the way back and help together, never one of them alone in a row", () => {
    const stage = new Stage().types("n").presses("enter", "enter", "enter", "enter").enters("300.20");
    for (const columns of [60, 70, 75, 80, 85, 90, 100]) {
      const last = stage.lines({ columns, rows: 24 }).at(-1) ?? "";
      expect(last.trimEnd()).toMatch(/Esc back {2}\? help$/);
    }
  });

  test("leave no coloured stroke where there is no message", () => {
    const rows = frameOf(anApp(), { columns: 160, rows: 50 });
    const strokes = rows.filter((row) => row.some(({ role }) => role === "warning") && textOf(row).trim() === "");
    expect(strokes).toEqual([]);
  });
});

describe("help", () => {
  test("shows the keys of the place it was asked from, from the same table as the footer", () => {
    const stage = new Stage().types("?");
    expect(stage.screen({ columns: 120, rows: 60 })).toContain("Set out a new test.");
    expect(stage.presses("escape").app.place.name).toBe("bench");
  });

  test("F1 serves where letters type", () => {
    const stage = new Stage().types("l").presses("f1");
    expect(stage.app.place).toMatchObject({ name: "help", of: { name: "log" } });
  });

  test("no key of any place lacks its sentence", () => {
    const stage = new Stage().types("n");
    expect(stage.presses("f1").screen({ columns: 120, rows: 60 })).toContain("To the field above.");
  });
});

test("a long message is not cut before what to do: it takes rows from the body and leaves the frame as high", () => {
  const message =
    "not on disk: the last entry is not saved yet: another program holds the file. Try again; if it stays so, look for a virus scanner or a synchroniser (EBUSY)";
  for (const [columns, rows] of SIZES) {
    const lines = frameOf(anApp({ message }), { columns, rows }).map(textOf);
    expect(lines.join(" ").replace(/\s+/g, " ")).toContain(message);
    expect(lines).toHaveLength(rows - 1);
    expect(Math.max(...lines.map(columnsOf))).toBeLessThanOrEqual(columns);
  }
});

test("who may only read, and what was found wrong, stands on the bench in full", () => {
  const readOnly = "another Sievewright (process 4711, since 2026-11-23 22:04) has this station open";
  const problem =
    "drafts/T-3.json can't be read: the file is empty. It was kept as drafts/T-3.json.unreadable; bring it to whoever looks after this computer, or restore it from a backup";
  for (const [columns, rows] of SIZES) {
    const shown = frameOf(anApp({ readOnly, problems: [problem] }), { columns, rows }).map(textOf);
    expect(shown.join(" ").replace(/\s+/g, " ")).toContain(`! read only: ${readOnly} ! ${problem}`);
  }
});
