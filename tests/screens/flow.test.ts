import { describe, expect, test } from "vitest";
import { testRecorded, ticked } from "../../src/screens/answers.ts";
import type { App } from "../../src/screens/place.ts";
import { EMPTY_G, FULL_G } from "../run/hands.ts";
import { anApp, recordedEntry, recordedRow, Stage } from "./stage.ts";

const two = (grams: number) => grams.toFixed(2);

function upToShaker(stage = new Stage()): Stage {
  stage.types("n").presses("enter", "enter", "enter", "enter").enters("300.20");
  for (const grams of EMPTY_G) stage.enters(two(grams));
  return stage;
}

function upToResult(stage = new Stage()): Stage {
  upToShaker(stage).presses("enter").waits(600).presses("enter");
  for (const grams of FULL_G) stage.enters(two(grams));
  return stage;
}

describe("a six-row test by keys", () => {
  test("ends on the result with both verdicts, and the screen shows the assessment's figures", () => {
    const screen = upToResult().screen();
    expect(screen).toContain("TEST VALID ✓  PASS ✓");
    expect(screen).toMatch(/1\.00 mm +56\.46 +18\.83 +79\.27 +±/);
    expect(screen).toContain("loss 0.30 g = 0.10 % (at most 0.3 %)");
  });

  test("costs the digits, one Enter a weighing and at most twelve keys more", () => {
    const stage = upToResult().presses("enter", "enter", "enter");
    const masses = [300.2, ...EMPTY_G, ...FULL_G].map(two);
    const weighingKeys = masses.reduce((keys, text) => keys + text.length + 1, 0);
    expect(stage.effects.filter((e) => e.do === "record")).toHaveLength(1);
    expect(stage.keysPressed - weighingKeys).toBeLessThanOrEqual(12);
    expect(stage.keysPressed - weighingKeys).toBe(10);
  });

  test("can be run from the numeric keypad alone", () => {
    const stage = new Stage();
    stage.types("1").presses("enter", "enter", "enter", "enter").enters("300.20");
    for (const grams of EMPTY_G) stage.enters(two(grams));
    stage.presses("enter").waits(600).presses("enter");
    for (const grams of FULL_G) stage.enters(two(grams));
    stage.presses("enter").types("1").presses("enter", "enter");
    expect(stage.effects.at(-1)).toMatchObject({ do: "record", by: "KO", draft: { disposition: "release" } });
  });

  test("puts every accepted entry to disk before its next prompt shows", () => {
    const stage = upToShaker();
    const saves = stage.effects.filter((e) => e.do === "save");
    expect(saves).toHaveLength(5 + EMPTY_G.length);
    const unsaved: App = { ...stage.app, saved: new Map() };
    const weighing = new Stage(unsaved).types("e");
    weighing.app = { ...weighing.app, saved: new Map() };
    expect(weighing.screen()).not.toContain("▸");
    expect(weighing.screen()).toContain("…");
  });
});

describe("while weighing", () => {
  test("the net mass and the passing % follow each accepted mass", () => {
    const stage = upToShaker().presses("enter").waits(600).presses("enter");
    expect(stage.screen()).not.toContain("98.1 %");
    stage.enters("418.02");
    expect(stage.screen()).toMatch(/1\.40 mm +412\.31 +418\.02 +5\.71 +98\.1 %/);
    expect(stage.screen()).toContain("so far 5.71 g of 300.20 g charge");
  });

  test("a doubt is shown, and a second Enter goes on", () => {
    const stage = upToShaker().presses("enter").waits(600).presses("enter").enters("400.00");
    expect(stage.screen()).toContain("! full is 12.31 g below empty");
    expect(stage.presses("enter").screen()).not.toContain("below empty");
  });

  test("minus and plus in a row step to the rows above and below", () => {
    const stage = upToShaker().types("e").types("++-");
    expect(stage.app.place).toMatchObject({ run: { at: 1 } });
  });

  test("a letter that means nothing here says so and types nothing", () => {
    const stage = upToShaker().types("e").types("y");
    expect(stage.screen()).toContain("y does nothing here");
    expect(stage.app.place).toMatchObject({ run: { typed: "" } });
  });

  test("a scanned code in a mass row is refused and fires no action", () => {
    const stage = upToShaker().types("e").scans("uqn-1");
    expect(stage.app.place).toMatchObject({ name: "run", run: { draft: { stage: "weigh empty" } } });
    expect(stage.effects.filter((e) => e.do === "quit")).toEqual([]);
  });
});

describe("the shaker", () => {
  test("counts down, and Enter before its time asks for a reason instead", () => {
    const stage = upToShaker().presses("enter").waits(240);
    expect(stage.screen()).toMatch(/6:00 to go/);
    expect(stage.presses("enter").screen()).toContain("time is not up");
    stage.types("s").enters("shaken by hand");
    expect(stage.app.place).toMatchObject({
      run: { draft: { stage: "weigh full", shaking: { skipped: "shaken by hand" } } },
    });
  });

  test("rings once when time is up, wherever the operator is", () => {
    const stage = upToShaker().presses("enter", "escape");
    const before = ticked(stage.app, "2026-11-24T02:20:00Z");
    expect(before.effects).toEqual([]);
    const rung = ticked(stage.app, "2026-11-24T02:40:00Z");
    expect(rung.effects).toEqual([{ do: "bell" }]);
    expect(rung.app.message).toContain("shaking time is up");
    expect(ticked(rung.app, "2026-11-24T02:41:00Z").effects).toEqual([]);
  });

  test("leaves the hands free for the next stack: both wait on the bench", () => {
    const stage = upToShaker().presses("enter", "escape");
    stage.types("n").enters("TH-BAR");
    stage.presses("escape");
    expect(stage.screen()).toMatch(/resume +TH-0510 .*shaking, 10 min to go/);
    expect(stage.screen()).toMatch(/resume +TH-BAR /);
    stage.presses("up", "up", "enter");
    expect(stage.app.place).toMatchObject({ name: "run", run: { draft: { product: { code: "TH-0510" } } } });
  });
});

describe("signing", () => {
  test("proposes release for what passes and takes the initials of whoever signed last", () => {
    const stage = upToResult().presses("enter");
    expect(stage.screen()).toMatch(/▸ 1 {2}release/);
    stage.presses("enter");
    expect(stage.screen()).toContain("signed by  KO");
    expect(stage.presses("enter").effects.at(-1)).toMatchObject({ do: "record", by: "KO" });
  });

  test("an invalid test can't release anything", () => {
    const stage = upToShaker().presses("enter").waits(600).presses("enter");
    for (const grams of FULL_G) stage.enters(two(grams - 1));
    stage.presses("enter");
    expect(stage.screen()).toContain("TEST INVALID !");
    expect(stage.screen()).toMatch(/▸ 4 {2}resample/);
    stage.types("1").presses("enter");
    expect(stage.screen()).toContain("invalid and proves nothing");
    expect(stage.app.place).toMatchObject({ name: "sign", field: "disposition" });
  });

  test("the disposition is on the trail of what is recorded", () => {
    const stage = upToResult().presses("enter").types("3").presses("enter", "enter");
    const record = stage.effects.at(-1);
    expect(record?.do === "record" && record.draft.trail.at(-1)).toMatchObject({ field: "disposition", to: "hold" });
  });

  test("once recorded the bench shows it first and says what happened", () => {
    const stage = upToResult().presses("enter", "enter", "enter");
    stage.app = testRecorded(stage.app, recordedEntry(124, "4471-B"), recordedRow(124, "4471-B"));
    expect(stage.app.drafts).toHaveLength(1);
    expect(stage.screen()).toContain("recorded as no. 124: TH-0510 lot 4471-B · PASS ✓ · released");
  });
});

describe("read only", () => {
  test("opens and shows, but sets out and records nothing", () => {
    const stage = new Stage(anApp({ readOnly: "another window has this station open (process 4711)" }));
    expect(stage.screen()).toContain("read only: another window");
    expect(stage.types("n").screen()).toContain("process 4711");
    expect(stage.app.place.name).toBe("bench");
  });
});

describe("what an awkward day brings", () => {
  test("initials that the station does not know are taken on a second Enter only", () => {
    const stage = upToResult().presses("enter", "enter").enters("xx");
    expect(stage.screen()).toContain("xx is not known at this station");
    expect(stage.effects.filter((e) => e.do === "record")).toEqual([]);
    expect(stage.presses("enter").effects.at(-1)).toMatchObject({ do: "record", by: "xx" });
  });

  test("a pass of a test that was not checked is not proposed for release", () => {
    const stage = new Stage();
    stage.types("n").presses("enter", "enter", "enter", "enter", "enter");
    for (const grams of EMPTY_G) stage.enters(two(grams));
    stage.presses("enter").waits(600).presses("enter");
    for (const grams of FULL_G) stage.enters(two(grams));
    expect(stage.screen()).toContain("TEST NOT CHECKED ?  PASS ✓");
    expect(stage.presses("enter").screen()).toMatch(/▸ 3 {2}hold/);
  });

  test("a test in which a mass was ever accepted can't be dropped, even when all was taken back", () => {
    const stage = new Stage();
    stage.types("n").presses("enter", "enter", "enter", "enter").enters("300.20").enters("412.31");
    stage.types("uu").presses("escape").waits(1).presses("escape");
    stage.types("d");
    expect(stage.screen()).toContain("this test holds weighings");
    expect(stage.effects.filter((e) => e.do === "drop")).toEqual([]);
  });

  test("what was refused in a field is replaced by the next reading", () => {
    const stage = new Stage().types("n").presses("enter", "enter", "enter", "enter").enters("300.20");
    stage.scans("TH-0510").scans("412.31");
    expect(stage.app.place).toMatchObject({ run: { typed: "", at: 1 } });
  });
});
