import { describe, expect, test } from "vitest";
import { isPractice } from "../../../src/record/practice.ts";
import { ticked } from "../../../src/screens/answers.ts";
import { readingOf } from "../../../src/screens/readingFrame.ts";
import { anApp, Stage } from "../stage.ts";

const MARK = "PRACTICE ◇";
/** Effects that reach a file. */
const WRITES = ["save", "drop", "record", "endTest", "recordEvent", "recordCheck", "recordCare", "amend"];
const written = ({ effects }: Stage) => effects.filter((effect) => WRITES.includes(effect.do));

const practising = () => new Stage().types("x");
const setOut = () => practising().presses("enter", "enter", "enter", "enter", "f6");

/** A whole practice test by the invented balance, to its result. */
function weighed(): Stage {
  const stage = setOut();
  for (let keys = 0; keys < 60 && stageOf(stage) !== "result"; keys++) stage.types("i");
  return stage;
}
const draftOf = ({ app }: Stage) => {
  if (app.place.name !== "run" && app.place.name !== "sign") throw new Error(`in ${app.place.name}`);
  return app.place.run.draft;
};
const stageOf = (stage: Stage) => draftOf(stage).stage;

describe("a practice test", () => {
  test("says so as soon as it is set out, and how to set out a real one", () => {
    const screen = practising().screen();
    expect(screen.split("\n")[0]).toContain(MARK);
    expect(screen).toContain("nothing of this is ever recorded");
    expect(screen).toContain("for a real test Esc, then n");
    expect(screen).toContain("practice");
    expect(draftOf(practising()).lot).toBe("practice");
  });

  test.each([
    ["set out", practising],
    ["weigh empty", setOut],
    ["result", weighed],
    ["sign", () => weighed().presses("enter")],
    ["initials", () => weighed().presses("enter", "enter")],
    ["values", () => weighed().types("w")],
    ["how much", () => weighed().types("g")],
    ["help", () => weighed().types("?")],
    ["big digits", () => setOut().types("x")],
  ])("bears its word and sign at the top of %s, at 80 and at 60 columns, and read aloud", (_name, to) => {
    const stage = to();
    expect(stage.lines()[0]?.startsWith(` ${MARK} `)).toBe(true);
    expect(stage.lines({ columns: 60, rows: 16 })[0]?.startsWith(` ${MARK} `)).toBe(true);
    expect(readingOf(stage.app)[0]).toMatch(/^practice, never recorded: /);
  });

  test("a real test bears neither", () => {
    const stage = new Stage().types("n");
    expect(stage.screen()).not.toContain("PRACTICE");
    expect(readingOf(stage.app)[0]).not.toContain("practice");
  });

  test("goes from set out to signed with nothing written and no test in work left", () => {
    const stage = weighed();
    expect(stageOf(stage)).toBe("result");
    stage.presses("enter", "enter").presses("enter");
    expect(stage.app.place.name).toBe("bench");
    expect(stage.app.message).toContain("nothing of it was recorded");
    expect(written(stage)).toEqual([]);
    expect(stage.app.drafts).toEqual([]);
    expect(stage.app.practice).toBeNull();
    expect(stage.app.recent).toEqual(anApp().recent);
  });

  test("says before signing that it is not recorded and what to do with a charge that was real", () => {
    const screen = weighed().presses("enter").screen().replace(/\s+/g, " ");
    expect(screen).toContain("NOT RECORDED");
    expect(screen).toContain("set out a real test with n on the bench and weigh it again");
    expect(new Stage(anApp()).screen()).not.toContain("NOT RECORDED");
  });

  test.each([
    ["the disposition", 1],
    ["the initials", 2],
  ])("says so beside %s in the lowest window as well", (_what, enters) => {
    const stage = weighed();
    for (let i = 0; i < enters; i++) stage.presses("enter");
    expect(stage.screen({ columns: 60, rows: 16 })).toContain("practice: NOT RECORDED");
  });

  test("can be gone through in a window that only reads", () => {
    const stage = new Stage(anApp({ readOnly: "another window writes" })).types("x");
    stage.presses("enter", "enter", "enter", "enter", "f6");
    for (let keys = 0; keys < 60 && stageOf(stage) !== "result"; keys++) stage.types("i");
    expect(stage.presses("enter").app.place.name).toBe("sign");
    expect(written(stage)).toEqual([]);
  });

  test("waits in memory when it is left, is told of on the bench, and is taken up again", () => {
    const stage = setOut().types("412.3").presses("enter");
    const { testId } = draftOf(stage);
    stage.presses("escape", "escape");
    expect(stage.app.place.name).toBe("bench");
    expect(stage.screen()).toMatch(/PRACTICE ◇ {2}TH-0510, .*x takes it up/);
    stage.types("x");
    expect(draftOf(stage).testId).toBe(testId);
    expect(draftOf(stage).weighings[0]?.emptyG).toBe(412.3);
    expect(written(stage)).toEqual([]);
  });

  test("ends by z at once, since there is nothing to give a reason for", () => {
    const stage = setOut().types("z");
    expect(stage.app.place.name).toBe("bench");
    expect(stage.app.practice).toBeNull();
    expect(written(stage)).toEqual([]);
  });

  test("takes no note, no cleaning and nothing else to the log", () => {
    const stage = setOut().presses("ctrl+n");
    expect(stage.app.place.name).toBe("run");
    expect(stage.app.message).toContain("nothing is recorded from here");
    stage.types("b");
    expect(stage.app.message).toContain("nothing is recorded from here");
    expect(written(stage)).toEqual([]);
  });

  test("rings when its shaking time is up, as a real one does", () => {
    const stage = setOut();
    for (let keys = 0; keys < 20 && stageOf(stage) !== "shake"; keys++) stage.types("i");
    stage.presses("enter").waits(601);
    expect(ticked(stage.app, stage.now()).effects).toEqual([{ do: "bell" }]);
  });

  test("never changes its name, whatever is done in it, so that it can't become a real one", () => {
    const stage = practising();
    const named = draftOf(stage).testId;
    expect(isPractice(draftOf(stage))).toBe(true);
    stage.types("TH-BAR").presses("enter", "enter", "enter", "enter", "f6");
    expect(draftOf(stage).testId).toBe(named);
    expect(draftOf(stage).lot).toBe("practice");
  });

  test("a real test has no key that makes it practice", () => {
    const stage = new Stage().types("n").presses("enter", "enter", "enter", "enter").enters("300");
    stage.types("i").presses("f6");
    expect(isPractice(draftOf(stage))).toBe(false);
    expect(draftOf(stage).weighings.every(({ emptyG }) => emptyG === null)).toBe(true);
  });

  test("leaves a doubted mass to whoever practises: the invented balance does not accept it", () => {
    const stage = setOut();
    for (let keys = 0; keys < 40 && stageOf(stage) !== "weigh full"; keys++) stage.types("i");
    stage.enters("2000").types("i");
    expect(stage.app.message).toContain("this mass is doubted");
    expect(draftOf(stage).weighings[0]?.fullG).toBeNull();
    expect(stage.presses("enter").app.place).toMatchObject({ run: { at: 1 } });
  });

  test("does not wait for the disk: its row is ready at once", () => {
    const stage = setOut().enters("412.3");
    expect(stage.screen()).toContain("▸");
    expect(stage.screen()).not.toContain("saved ✓");
    expect(stage.types("x").screen()).toContain("practice: not kept");
  });
});
