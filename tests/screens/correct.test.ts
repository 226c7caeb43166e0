import { describe, expect, test } from "vitest";
import { currentTest } from "../../src/record/versions.ts";
import type { Size } from "../../src/screens/place.ts";
import { testAmended } from "../../src/screens/record/amended.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { amendings, corrected, openedOn, plain } from "./amending.ts";
import { recordedRow, type Stage } from "./stage.ts";

const correcting = (stage: Stage = openedOn()): Stage => stage.types("e");
/** The mark on a figure of the list, found by its words. */
function onto(stage: Stage, label: string): Stage {
  for (let i = 0; i < 40 && !stage.lines().some((text) => text.startsWith(`▸ ${label}`)); i++) stage.presses("down");
  expect(stage.screen()).toContain(`▸ ${label}`);
  return stage;
}
const downTo = (stage: Stage, label: string, mass: string): Stage => onto(stage, label).enters(mass);
/** The 710 um sieve's full mass mistyped by a gram, up to the page that shows what follows. */
const upToFollows = (stage = correcting()): Stage => {
  downTo(stage, "710 um full", "493.20");
  return stage.types("r").types("read the wrong line").presses("enter");
};

/** A recorded test of a method that weighs the sieves empty once a shift. */
function ofShift() {
  const { entry, later } = plain();
  const { product } = entry.test;
  const method = { ...product.method, emptyMasses: "each shift" as const };
  return { entry: { ...entry, test: { ...entry.test, product: { ...product, method } } }, later };
}

describe("empty masses that tests after it may have taken over", () => {
  const KEEP = "keep it: correct them, too";
  const follows = (stage: Stage, label: string, mass: string): string =>
    downTo(stage, label, mass).types("r").screen({ columns: 100, rows: 40 });

  test("stay there as they were read, and whoever corrects one is told so", () => {
    expect(follows(correcting(openedOn(ofShift())), "710 um empty", "381.30")).toContain(KEEP);
    expect(follows(correcting(openedOn(ofShift())), "710 um full", "493.20")).not.toContain(KEEP);
    expect(follows(correcting(), "710 um empty", "381.30")).not.toContain(KEEP);
  });

  test("outlive the test that is voided, and whoever voids it is told so", () => {
    const told = "took its empty masses over keep them: look at each";
    expect(openedOn(ofShift()).types("y").screen()).toContain(told);
    expect(openedOn().types("y").screen()).not.toContain(told);
  });
});

describe("correcting a recorded test", () => {
  test("lists what can be corrected, as it reads now, weighings with both masses", () => {
    const screen = correcting().screen({ columns: 80, rows: 40 });
    for (const text of ["lot", "line", "sampling point", "charge", "disposition", "remark"])
      expect(screen).toContain(text);
    expect(screen).toMatch(/710 um empty +381\.20 g/);
    expect(screen).toMatch(/710 um full +493\.50 g/);
    expect(screen).toMatch(/pan full +358\.60 g/);
  });

  test("takes a mass with the marks and units of the balance, and shows old and new side by side", () => {
    const stage = downTo(correcting(), "1.40 mm full", "0,41802 kg");
    expect(stage.presses("up").screen()).toMatch(/1\.40 mm full +418\.02 g/);
    downTo(stage, "1.40 mm full", "418,12");
    expect(stage.screen()).toMatch(/1\.40 mm full +418\.02 g +\* 418\.12 g/);
  });

  test("keeps a figure half typed when the row is left by an arrow, and says how to go on", () => {
    const stage = onto(correcting(), "1.40 mm full").types("418.1").presses("down");
    expect(stage.app.message).toBe("418.1 is not taken yet: Enter takes it, Esc drops it");
    stage.types("2").presses("enter");
    expect(stage.screen()).toMatch(/1\.40 mm full +418\.02 g +\* 418\.12 g/);
  });

  test("takes what a balance types as one entry", () => {
    const stage = onto(correcting(), "1.40 mm full").scans("+  418.12 g");
    expect(stage.screen()).toMatch(/1\.40 mm full +418\.02 g +\* 418\.12 g/);
  });

  test.each([
    ["abc", /type the mass|does nothing/],
    ["1.2.3", "separators"],
    ["0", "more than 0 g"],
  ])("does not take %j for a mass, and says why", (typed, why) => {
    const stage = onto(correcting(), "1.40 mm full").types(typed).presses("enter");
    expect(stage.app.message).toMatch(why);
    expect(stage.app.place).toMatchObject({ changes: [] });
  });

  test("doubts a mass that can't be right either; a second Enter takes it all the same", () => {
    const stage = onto(correcting(), "710 um full").enters("93.50");
    expect(stage.screen()).toContain("below empty (381.2 g): the right sieve?");
    expect(stage.app.place).toMatchObject({ changes: [] });
    expect(stage.presses("enter").app.place).toMatchObject({
      changes: [{ field: "fullG", apertureUm: 710, to: 93.5 }],
    });
  });

  test("doubts an empty mass by what it makes of the full one", () => {
    const stage = onto(correcting(), "710 um empty").enters("581.20");
    expect(stage.screen()).toContain("below empty (581.2 g)");
  });

  test("does not go on to the reason over a figure that is typed but not taken, doubted or not", () => {
    const stage = onto(correcting(), "710 um full").types("427.80").types("r");
    expect(stage.app.message).toBe("427.80 is typed but not taken: Enter takes it, Esc leaves it");
    expect(stage.app.place).toMatchObject({ step: "choose", typed: "427.80" });
    stage.presses("escape").enters("93.50").types("r");
    expect(stage.app.message).toBe("93.50 is typed but not taken: Enter takes it, Esc leaves it");
    expect(stage.presses("enter").app.place).toMatchObject({ step: "choose", changes: [{ to: 93.5 }] });
  });

  test("opens a word with what stands there, and lets all letters type", () => {
    const stage = correcting().presses("enter");
    expect(stage.screen()).toContain("4471-B▌");
    for (let i = 0; i < 6; i++) stage.presses("backspace");
    stage.types("rue-9").presses("enter");
    expect(stage.screen()).toMatch(/lot +4471-B +\* rue-9/);
  });

  test("chooses a disposition by number", () => {
    const stage = onto(correcting(), "disposition").types("3");
    expect(stage.screen()).toMatch(/disposition +released +\* on hold/);
  });

  test("set back to what stands on record is corrected no more; u takes one back as well", () => {
    const stage = downTo(correcting(), "1.40 mm full", "418.12").presses("up");
    downTo(stage, "1.40 mm full", "418.02");
    expect(stage.app.place).toMatchObject({ changes: [] });
    downTo(stage.presses("up"), "1.40 mm full", "418.12").presses("up").types("u");
    expect(stage.app.place).toMatchObject({ changes: [] });
    expect(stage.types("u").app.message).toContain("not corrected");
  });

  test("takes several corrections at once", () => {
    const stage = downTo(downTo(correcting(), "1.40 mm full", "418.12"), "500 um full", "459.00");
    expect(stage.app.place).toMatchObject({ changes: [{ apertureUm: 1400 }, { apertureUm: 500 }] });
  });

  test("goes on to the reason only when something is corrected and the test can be assessed", () => {
    const stage = onto(correcting(), "charge").types("r");
    expect(stage.app.message).toBe("nothing is corrected yet");
    expect(stage.app.place).toMatchObject({ step: "choose" });
  });

  test.each(["", "  ", "ab"])("asks for a reason in words, not %j", (words) => {
    const stage = downTo(correcting(), "710 um full", "493.20").types("r").types(words).presses("enter");
    expect(stage.app.place).toMatchObject({ step: "reason" });
    expect(stage.app.message).toContain("say why");
  });

  test("shows old and new figures and verdicts before anybody signs, what differs with a sign", () => {
    const screen = upToFollows().screen();
    expect(screen).toMatch(/as it reads now +corrected/);
    expect(screen).toMatch(/710 um full g +493\.50 +\* 493\.20/);
    expect(screen).toMatch(/loss +0\.10 % +\* 0\.20 %/);
    expect(screen).toMatch(/passing 710 um +41\.82 % +\* 41\.87 %/);
    expect(screen).toContain("why: read the wrong line");
  });

  test("shows a verdict that the correction turns", () => {
    const stage = downTo(correcting(), "710 um full", "491.50")
      .types("r")
      .types("weighed with the brush")
      .presses("enter");
    expect(stage.screen({ columns: 80, rows: 40 })).toMatch(/test +TEST VALID ✓ +\* TEST INVALID !/);
    expect(amendings(stage)).toEqual([]);
  });

  test("is recorded with what changed, from what, why, by whom, and the verdicts that were shown", () => {
    const stage = upToFollows().presses("enter", "enter");
    expect(amendings(stage)).toEqual([
      {
        do: "amend",
        by: "KO",
        amending: {
          kind: "correction",
          of: { testId: "t-7", day: "2026-11-22", number: 7 },
          changes: [{ field: "fullG", apertureUm: 710, from: 493.5, to: 493.2 }],
          reason: "read the wrong line",
          signed: { program: "test", test: "valid", product: "pass", lossPct: expect.closeTo(0.2, 2), budget: 1 },
        },
      },
    ]);
  });

  test("is signed by other initials when they are typed; unknown ones take a second Enter", () => {
    const stage = upToFollows().presses("enter").types("ML").presses("enter");
    expect(stage.app.message).toContain("ML is not known at this station");
    expect(amendings(stage.presses("enter"))).toMatchObject([{ by: "ML" }]);
  });

  test("never releases a product on an invalid test", () => {
    const stage = downTo(correcting(), "710 um full", "491.50");
    onto(stage, "disposition").types("3").presses("up").types("r");
    expect(stage.app.place).toMatchObject({ step: "reason" });
    const held = openedOn(
      corrected(plain(), [
        { field: "fullG", apertureUm: 710, to: 491.5 },
        { field: "disposition", to: "hold" },
      ]),
    );
    onto(held.types("e"), "disposition").types("1").presses("up").types("r");
    expect(held.app.message).toContain("release is not possible on it");
  });

  test("goes back step by step and asks before a correction begun is left", () => {
    const stage = upToFollows().presses("enter", "escape", "escape");
    expect(stage.screen()).toContain("why: read the wrong line▌");
    stage.presses("escape");
    expect(stage.app.place).toMatchObject({ name: "correct", step: "choose", reason: "read the wrong line" });
    stage.presses("escape");
    expect(stage.app.place.name).toBe("correct");
    expect(stage.app.message).toContain("Esc again leaves");
    expect(stage.presses("escape").app.place.name).toBe("record");
    expect(amendings(stage)).toEqual([]);
  });

  test("goes back at once when nothing was corrected", () => {
    expect(correcting().presses("escape").app.place.name).toBe("record");
  });

  test("starts from the latest version of a test that was corrected before", () => {
    const stage = openedOn(corrected(plain(), [{ field: "lot", to: "4472-A" }])).types("e");
    expect(stage.screen()).toMatch(/▸ lot +4472-A/);
    expect(stage.lines()[0]).toContain("corrected once before");
  });

  test("is refused where nothing can be recorded", () => {
    const stage = openedOn(plain(), { readOnly: "another window has this station open" }).types("e");
    expect(stage.app.place.name).toBe("record");
    expect(stage.app.message).toContain("another window");
  });

  const SIZES: readonly Size[] = [
    { columns: 60, rows: 16 },
    { columns: 80, rows: 24 },
    { columns: 160, rows: 50 },
  ];
  test.each(SIZES)("fits $columns x $rows at every step", (size) => {
    const stage = upToFollows();
    for (let i = 0; i < 3; i++) {
      const lines = stage.lines(size);
      expect(lines).toHaveLength(size.rows - 1);
      for (const text of lines) expect(columnsOf(text)).toBeLessThanOrEqual(size.columns);
      expect(lines.join("\n")).toContain("read the wrong line");
      stage.presses("escape");
      if (i === 0) stage.presses("enter", "enter");
    }
  });
});

describe("once it is recorded", () => {
  test("the record's page shows the corrected figures and every list has them", () => {
    const before = plain();
    const stage = openedOn(before, { recent: [recordedRow(7, "4471-B"), recordedRow(3)] });
    upToFollows(correcting(stage)).presses("enter", "enter");
    const history = corrected(before, [{ field: "fullG", apertureUm: 710, to: 493.2 }], "read the wrong line");
    const [entry] = history.later;
    if (entry === undefined) throw new Error("no correction");
    const row = {
      ...recordedRow(7, "4471-B"),
      lossPct: 0.2,
      amended: { corrections: 1, voided: false, waived: false },
    };
    stage.app = testAmended(stage.app, entry, history, row);
    expect(stage.app.place).toMatchObject({ name: "record", entry: before.entry, later: [entry] });
    expect(stage.app.recent).toEqual([row, recordedRow(3)]);
    expect(stage.screen()).toContain("recorded as no. 20: test no. 7 corrected");
    expect(stage.screen()).toContain("! corrected once, shown as corrected");
    expect(currentTest(history).weighings.find(({ apertureUm }) => apertureUm === 710)?.fullG).toBe(493.2);
    expect(stage.presses("escape").screen()).toContain("corrected");
  });
});
