import { describe, expect, test } from "vitest";
import type { Draft } from "../../src/record/draft.ts";
import type { IndexRow } from "../../src/record/indexRow.ts";
import { monthRead } from "../../src/screens/log/logPlace.ts";
import type { Effect } from "../../src/screens/place.ts";
import { testAmended, testEnded } from "../../src/screens/record/amended.ts";
import { VIEWS } from "../../src/screens/result/views.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { Hands } from "../run/hands.ts";
import { amendings, corrected, openedOn, plain, said } from "./amending.ts";
import { anApp, recordedEntry, recordedRow, Stage } from "./stage.ts";

const invalid = () => {
  const entry = recordedEntry(7, "4471-B");
  const signed = { ...entry.test.signed, test: "invalid", product: "not judged" } as const;
  return plain({ ...entry, test: { ...entry.test, signed } });
};
const flat = (stage: Stage) => stage.screen().replace(/\s+/g, " ");
const onVersions = (stage: Stage) => stage.types("v".repeat(VIEWS.length));

describe("the page of an amended test", () => {
  test("says in words that it is void, when, by whom and why, before all else", () => {
    const stage = openedOn(said(plain(), "voided", "the wrong heap was sampled"));
    expect(stage.lines()[0]).toContain("VOID ×");
    expect(flat(stage)).toContain("! voided no. 20 · 2026-11-25 08:20 · ML: the wrong heap was sampled");
  });

  test("says no more that it is void once it is reinstated", () => {
    const stage = openedOn(said(said(plain(), "voided", "wrong heap"), "reinstated", "right heap after all"));
    expect(stage.screen()).not.toContain("VOID");
    expect(onVersions(stage).screen()).toContain("reinstated  no. 21");
  });

  test("says that an invalid test was waived, and keeps saying that it is invalid", () => {
    const stage = openedOn(said(invalid(), "waived", "loss explained by the spilled pan"));
    expect(stage.lines()[0]).toContain("waived  TEST INVALID !");
    expect(flat(stage)).toContain("! waived no. 20");
  });

  test("of a test as it was recorded has no versions and says nothing of any", () => {
    const stage = openedOn();
    for (let i = 0; i <= VIEWS.length; i++) {
      expect(stage.screen()).not.toContain("differs");
      stage.types("v");
    }
  });

  test("has every version side by side, each with who, when and why, and what differs with a sign", () => {
    const history = corrected(corrected(plain(), [{ field: "lot", to: "4472-A" }], "wrong label"), [
      { field: "fullG", apertureUm: 710, to: 493.2 },
    ]);
    const screen = onVersions(openedOn(history)).screen({ columns: 120, rows: 40 });
    expect(screen).toMatch(/original 11-22 02:07 +no\. 20 11-25 08:20 +no\. 21 11-25 08:21/);
    expect(screen).toContain("corrected  no. 20 · 2026-11-25 08:20 · ML: wrong label");
    expect(screen).toMatch(/lot +4471-B +\* 4472-A +4472-A/);
    expect(screen).toMatch(/710 um full g +493\.50 +493\.50 +\* 493\.20/);
  });

  test("at 80 columns scrolls to the versions that don't fit, and down to the verdicts", () => {
    let history = plain();
    for (const lot of ["A", "B", "C", "D"]) history = corrected(history, [{ field: "lot", to: lot }]);
    const stage = onVersions(openedOn(history));
    expect(stage.screen()).toContain("original");
    expect(stage.screen()).not.toContain("no. 23 11-25");
    expect(stage.screen()).toContain("5 versions, 2 shown: Left and Right");
    stage.presses("right", "right", "right", "right");
    expect(stage.screen()).toContain("no. 23 11-25");
    stage.presses("left", "left", "left", "left", "left");
    expect(stage.screen()).toContain("original");
    expect(stage.screen()).not.toContain("TEST VALID ✓  ".repeat(2));
    for (let i = 0; i < 40; i++) stage.presses("down");
    expect(stage.screen()).toMatch(/product +PASS ✓ +PASS ✓/);
    for (const size of [
      { columns: 60, rows: 16 },
      { columns: 80, rows: 24 },
    ])
      for (const text of stage.lines(size)) expect(columnsOf(text)).toBeLessThanOrEqual(size.columns);
  });

  test("names a correction that does not fit what it corrects", () => {
    const history = corrected(plain(), [{ field: "lot", to: "4472-A" }]);
    const forged = history.later.map((one) =>
      one.kind === "correction" ? { ...one, changes: [{ field: "lot" as const, from: "?", to: "X" }] } : one,
    );
    expect(onVersions(openedOn({ ...history, later: forged })).screen()).toContain(
      "! entry no. 20 corrects what does not stand there",
    );
  });
});

describe("void, reinstate, waive", () => {
  test("ask why, tell what follows, and are signed", () => {
    const stage = openedOn().types("y");
    expect(stage.screen()).toContain("why does this test not count?");
    stage.presses("enter");
    expect(stage.app.message).toContain("say why");
    stage.types("yes, the wrong heap").presses("enter", "enter");
    expect(amendings(stage)).toEqual([
      {
        do: "amend",
        by: "KO",
        amending: {
          kind: "voided",
          of: { testId: "t-7", day: "2026-11-22", number: 7 },
          reason: "yes, the wrong heap",
        },
      },
    ]);
  });

  test("the same key reinstates a void test", () => {
    const stage = openedOn(said(plain(), "voided", "wrong heap")).types("y");
    expect(stage.screen()).toContain("why does this test count again?");
    stage.types("it was the right heap").presses("enter", "enter");
    expect(amendings(stage)).toMatchObject([{ amending: { kind: "reinstated" } }]);
  });

  test("waiving is for invalid tests alone, and said before a reason is typed in vain", () => {
    expect(openedOn().types("i").app.message).toContain("not invalid");
    const stage = openedOn(invalid()).types("i").types("loss explained").presses("enter", "enter");
    expect(amendings(stage)).toMatchObject([{ amending: { kind: "waived", reason: "loss explained" } }]);
    expect(openedOn(said(invalid(), "waived", "known")).types("i").app.message).toContain("waived already");
  });

  test("are told to whoever may not, before they type", () => {
    const session = { initials: "KO", name: "K. Orr", role: "operator" } as const;
    const stage = openedOn(plain(), { session }).types("y");
    expect(stage.app.place.name).toBe("record");
    expect(stage.app.message).toContain("takes somebody of quality");
  });

  test("Esc goes back step by step and records nothing", () => {
    const stage = openedOn().types("y").types("wrong heap").presses("enter", "escape");
    expect(stage.screen()).toContain("wrong heap▌");
    expect(stage.presses("escape").app.place.name).toBe("record");
    expect(stage.effects).toEqual([]);
  });

  test("once recorded the page is shown again with what was said", () => {
    const stage = openedOn().types("y").types("wrong heap").presses("enter", "enter");
    const history = said(plain(), "voided", "wrong heap");
    const [entry] = history.later;
    if (entry === undefined) throw new Error("nothing said");
    stage.app = testAmended(stage.app, entry, history, undefined);
    expect(stage.screen()).toContain("VOID ×");
    expect(stage.app.message).toContain("test no. 7 void");
    expect(stage.app.operator).toBe("ML");
  });
});

const amended = (number: number, lot: string, change: Partial<NonNullable<IndexRow["amended"]>>): IndexRow => ({
  ...recordedRow(number, lot),
  amended: { corrections: 0, voided: false, waived: false, ...change },
});
const ROWS = [
  recordedRow(1, "plain-1"),
  amended(2, "fixed-2", { corrections: 1 }),
  amended(3, "void-3x", { voided: true }),
  { ...amended(4, "waived4", { waived: true }), test: "invalid" as const, verdict: "not judged" as const },
];

describe("lists", () => {
  const SIZES = [
    { columns: 80, rows: 24 },
    { columns: 120, rows: 40 },
  ];
  const lineOf = (lines: readonly string[], lot: string) => lines.find((text) => text.includes(lot)) ?? "";

  test.each(SIZES)("say corrected, void and waived in words at $columns columns", (size) => {
    const bench = new Stage(anApp({ recent: ROWS })).lines(size);
    const log = new Stage(anApp()).types("l");
    log.app = monthRead(log.app, "2026-11", ROWS).app;
    for (const lines of [bench, log.lines(size)]) {
      expect(lineOf(lines, "fixed-2")).toMatch(/PASS ✓.* corrected .*released/);
      expect(lineOf(lines, "void-3x")).toContain("VOID ×");
      expect(lineOf(lines, "void-3x")).not.toMatch(/PASS|\d um/);
      expect(lineOf(lines, "waived4")).toMatch(/invalid !.* waived/);
      expect(lineOf(lines, "plain-1")).not.toMatch(/corrected|VOID|waived/);
    }
  });

  const found = (filter: string): string[] => {
    const log = new Stage(anApp()).types("l");
    log.app = monthRead(log.app, "2026-11", ROWS).app;
    const screen = log.types(filter).screen();
    return ROWS.map(({ lot }) => lot).filter((lot) => screen.includes(lot));
  };
  test.each([
    ["corrected", ["fixed-2"]],
    ["waived", ["waived4"]],
    ["valid", ["plain-1", "fixed-2", "void-3x"]],
    ["invalid", ["waived4"]],
    ["void ×", ["void-3x"]],
    ["released corrected", ["fixed-2"]],
  ])("find %j by its word, whole from its beginning", (filter, lots) => expect(found(filter)).toEqual(lots));

  test("no column of the log touches the next, however long a line's name is", () => {
    const log = new Stage(anApp()).types("l");
    log.app = monthRead(log.app, "2026-11", [
      { ...recordedRow(1, "a-very-long-lot"), line: "Screen deck B", product: "TH-0510-LONG" },
    ]).app;
    expect(log.screen()).toMatch(/TH-0510… a-very-… Screen … PASS ✓/);
  });

  test("the bench's trend leaves void tests out and counts waived ones", () => {
    const rows = Array.from({ length: 4 }, (_, i) => recordedRow(i + 1));
    const shown = (recent: readonly IndexRow[]) => new Stage(anApp({ recent })).screen();
    expect(shown(rows)).toContain("last 4 tests");
    const [one, ...others] = rows;
    if (one === undefined) throw new Error("no rows");
    const marked = (change: Partial<IndexRow["amended"]>) => ({
      ...one,
      amended: { corrections: 0, voided: false, waived: false, ...change },
    });
    expect(shown([...others, marked({ voided: true })])).toContain("last 3 tests");
    expect(shown([...others, { ...marked({ waived: true }), test: "invalid" }])).toContain("last 4 tests");
    expect(shown([...others, { ...one, test: "invalid" }])).toContain("last 3 tests");
  });
});

const ends = (stage: Stage): Extract<Effect, { do: "endTest" }>[] =>
  stage.effects.flatMap((effect) => (effect.do === "endTest" ? [effect] : []));
const draft = (): Draft => new Hands().setsOut().enters("412.31").run.draft;

describe("a test in work that came to nothing", () => {
  test("is ended from the bench, with a reason and a signature", () => {
    const waiting = draft();
    const stage = new Stage(anApp({ drafts: [waiting] })).types("d");
    expect(stage.app.message).toContain("z ends it");
    stage.types("z");
    expect(stage.screen()).toContain("what happened?");
    stage.types("stack dropped").presses("enter", "enter");
    expect(ends(stage)).toEqual([{ do: "endTest", draft: waiting, reason: "stack dropped", by: "KO" }]);
    expect(stage.app.drafts).toEqual([waiting]);
  });

  test.each([
    ["weighing empties", (stage: Stage) => stage, "z"],
    ["on the set-out page", (stage: Stage) => stage.types("o"), "f9"],
  ] as const)("is ended while %s, and Esc goes back to where it was", (_where, goes, key) => {
    const stage = goes(new Stage(anApp({ drafts: [draft()] })).presses("enter"));
    const before = stage.app.place;
    if (key === "z") stage.types("z");
    else stage.presses(key);
    expect(stage.app.place.name).toBe("reason");
    expect(stage.presses("escape").app.place).toEqual(before);
  });

  test("in which nothing is entered yet has nothing to end", () => {
    const stage = new Stage().types("n").presses("f9");
    expect(stage.app.message).toContain("nothing is entered yet");
    expect(new Stage().types("z").app.message).toContain("choose a test in work");
  });

  test("goes from the bench once it is recorded", () => {
    const waiting = draft();
    const stage = new Stage(anApp({ drafts: [waiting] })).types("z").types("spilled").presses("enter", "enter");
    const { schema: _schema, stage: at, ...test } = waiting;
    const sealed = { number: 9, at: "2026-11-24T03:20:00+01:00", day: "2026-11-23", station: "TH-DRY1" };
    const entry = {
      kind: "test ended",
      ...sealed,
      by: "KO",
      previous: "",
      stage: at,
      test,
      reason: "spilled",
    } as const;
    stage.app = testEnded(stage.app, entry);
    expect(stage.app.drafts).toEqual([]);
    expect(stage.app.place.name).toBe("bench");
    expect(stage.app.message).toBe("recorded as no. 9: test of TH-0510 lot 4471-B ended without a result");
  });
});
