import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { frameOf } from "../../src/screens/frame.ts";
import type { Line } from "../../src/screens/line.ts";
import { marksFor, withMarks } from "../../src/screens/stackMarks.ts";
import { THEMES } from "../../src/terminal/theme.ts";
import { Stage } from "./stage.ts";

const SIZE = { columns: 80, rows: 24 };
const taggedIn = (lines: readonly Line[]): string[] =>
  lines.flatMap((l) =>
    l.filter(({ role }) => role.startsWith("stack")).map(({ text, role }) => `${text.trim()} ${role}`),
  );

const twoStacks = () =>
  new Stage()
    .types("n")
    .presses("enter", "enter", "enter", "enter")
    .enters("300")
    .presses("escape", "escape")
    .types("n")
    .enters("TH-BAR")
    .presses("enter", "enter", "enter")
    .enters("200");

describe("letters of stacks in work", () => {
  test("a test keeps its letter whatever comes and goes; no two have the same", () => {
    fc.assert(
      fc.property(
        fc.array(fc.uniqueArray(fc.integer({ min: 0, max: 12 }), { maxLength: 8 }), { maxLength: 10 }),
        (steps) => {
          let marks: ReadonlyMap<string, string> = new Map();
          for (const step of steps) {
            const next = marksFor(
              step.map((id) => ({ testId: `t${id}` })),
              marks,
            );
            expect(new Set(next.values()).size).toBe(step.length);
            for (const [id, letter] of next) if (marks.has(id)) expect(letter).toBe(marks.get(id));
            marks = next;
          }
        },
      ),
      { numRuns: 100 },
    );
  });

  test("one stack alone has none", () => {
    const stage = new Stage().types("n").presses("enter", "enter", "enter", "enter").enters("300");
    expect(taggedIn(frameOf(stage.app, SIZE))).toEqual([]);
  });

  test("two have one each: on the bench and in the title of the weighing, letter and ground", () => {
    const stage = twoStacks();
    expect(taggedIn(frameOf(stage.app, SIZE))).toEqual(["B stack2"]);
    expect(stage.screen()).toMatch(/^ {2}B {2}TH-BAR rev 1/);
    stage.presses("escape", "escape");
    expect(stage.app.place.name).toBe("bench");
    expect(taggedIn(frameOf(stage.app, SIZE))).toEqual(["A stack1", "B stack2"]);
  });

  test("the second keeps its letter once the first is gone", () => {
    const app = withMarks(twoStacks().app);
    const [, second] = app.drafts;
    const alone = withMarks({ ...app, drafts: second ? [second] : [] });
    expect([...(alone.marks?.values() ?? [])]).toEqual(["B"]);
    expect(withMarks(alone)).toBe(alone);
  });

  test("their grounds differ from one another in every coloured theme", () => {
    for (const name of ["dark", "light", "high contrast"] as const) {
      const { looks } = THEMES[name];
      const grounds = [looks.stack1, looks.stack2, looks.stack3, looks.stack4].map(({ ground }) => ground?.rgb);
      expect(new Set(grounds).size).toBe(4);
    }
  });
});
