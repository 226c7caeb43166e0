import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Draft, Stage } from "../../src/record/draft.ts";
import { inStage, massEntered, stageAfter } from "../../src/run/weigh.ts";
import { EMPTY_G, FULL_G, Hands } from "./hands.ts";

const AT = "2026-11-24T03:30:00+01:00";
const draftOf = ({ run }: Hands) => run.draft;
const weighed = (draft: Draft, column: "emptyG" | "fullG", rows: readonly number[]): Draft => ({
  ...draft,
  weighings: draft.weighings.map((w, row) => ({ ...w, [column]: rows.includes(row) ? 400 + row : null })),
});
const ALL_ROWS = [0, 1, 2, 3, 4, 5];

describe("where the work goes on", () => {
  const { draft } = new Hands().setsOut().run;
  const emptied = weighed(draft, "emptyG", ALL_ROWS);
  const shaken = { ...emptied, shaking: { ...emptied.shaking, startedAt: AT, endedAt: AT } };
  const skipped = { ...emptied, shaking: { ...emptied.shaking, skipped: "by hand" } };

  test.each([
    ["with an empty sieve missing", weighed(draft, "emptyG", [0, 1, 3, 4, 5]), "weigh empty"],
    ["with all empties weighed", emptied, "shake"],
    ["while the shaker runs", { ...emptied, shaking: { ...emptied.shaking, startedAt: AT } }, "shake"],
    ["after the shaker", shaken, "weigh full"],
    ["after the shaking was skipped", skipped, "weigh full"],
    ["with a full sieve missing", weighed(shaken, "fullG", [0, 1, 2, 3, 4]), "weigh full"],
    ["with everything weighed", weighed(shaken, "fullG", ALL_ROWS), "result"],
    [
      "with everything weighed but one empty",
      weighed(weighed(shaken, "fullG", ALL_ROWS), "emptyG", [1, 2, 3, 4, 5]),
      "weigh empty",
    ],
  ] as const)("%s %#", (_words, draftThen, stage) => {
    expect(stageAfter(draftThen)).toBe(stage);
  });

  test("entered by choice has the first unweighed row in hand, nothing typed and nothing doubted", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G.slice(0, 2)).types("41");
    const there = inStage({ ...hands.run, doubt: { grams: 1, text: "?" }, message: "?" }, "weigh empty");
    expect(there).toMatchObject({ at: 2, typed: "", doubt: null, message: null });
    expect(inStage(hands.run, "shake")).toMatchObject({ at: 0, draft: { stage: "shake" } });
    expect(inStage(new Hands().tests().run, "weigh full").at).toBe(0);
  });
});

describe("a mass entered", () => {
  const onRow = (typed: string, hands = new Hands().setsOut()) => massEntered({ ...hands.run, typed }, AT);

  test.each([
    ["412.31", 412.31],
    ["412,31", 412.31],
    [" 412.31 g", 412.31],
    ["0.41231 kg", 412.31],
    ["400", 400],
  ])("as %j is %d g, on the trail with its sieve and its moment", (typed, grams) => {
    const { draft } = onRow(typed);
    expect(draft.weighings[0]?.emptyG).toBe(grams);
    expect(draft.trail.at(-1)).toEqual({ at: AT, field: "emptyG", apertureUm: 1400, from: null, to: grams });
  });

  test.each([
    ["-3", "tare the balance"],
    ["4 12", "4 12"],
    ["abc", "abc"],
    ["412 lb", "enter g, kg or mg"],
  ])("as %j is refused with a reason, and stays in the field", (typed, reason) => {
    const run = onRow(typed);
    expect(run.draft.weighings[0]?.emptyG).toBeNull();
    expect(run.message).toContain(reason);
    expect(run).toMatchObject({ typed, at: 0, doubt: null });
  });

  test("as nothing on an unweighed row asks for a mass, on a weighed one goes on to the next", () => {
    expect(onRow("  ").message).toContain("type the mass");
    const hands = new Hands().setsOut().weighs(EMPTY_G.slice(0, 3));
    for (let i = 0; i < 3; i++) hands.does({ type: "rowUp" });
    expect(hands.enter().run).toMatchObject({ at: 1, message: null });
    expect(hands.enter(2).run.at).toBe(3);
  });

  test("as nothing on the last row of what is weighed leads on to the next stage", () => {
    const hands = new Hands().tests().does({ type: "stageChosen", stage: "weigh empty" });
    for (let i = 0; i < 5; i++) hands.does({ type: "rowDown" });
    expect(draftOf(hands.enter()).stage).toBe("result");
  });

  test("over one that stands replaces it, and the trail has both", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G.slice(0, 1)).does({ type: "rowUp" });
    const { draft } = onRow("412.50", hands);
    expect(draft.weighings[0]?.emptyG).toBe(412.5);
    expect(draft.trail.at(-1)).toMatchObject({ from: 412.31, to: 412.5 });
  });

  test("over one that stands has the next row down in hand, weighed or not", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G.slice(0, 4));
    for (let i = 0; i < 3; i++) hands.does({ type: "rowUp" });
    expect(hands.enters("398.75").run).toMatchObject({ at: 2 });
    expect(hands.enters("381.25").run.draft.weighings[2]?.emptyG).toBe(381.25);
  });

  test("over one of a full table leaves the table only by Enter in an empty field", () => {
    const hands = new Hands().tests().does({ type: "stageChosen", stage: "weigh full" });
    hands.enters("418.03");
    expect(hands.run).toMatchObject({ at: 1, draft: { stage: "weigh full" } });
    expect(hands.run.note).toContain("Enter goes on");
    for (let i = 0; i < 9; i++) hands.does({ type: "rowDown" });
    expect(hands.enters("358.61").run).toMatchObject({ at: 5, draft: { stage: "weigh full" } });
    expect(hands.enter().run.draft.stage).toBe("result");
  });

  test("on a row that there is not changes nothing", () => {
    const { run } = new Hands().setsOut();
    expect(massEntered({ ...run, at: 99, typed: "412.31" }, AT).draft).toBe(run.draft);
  });
});

describe("undo", () => {
  test("drops what is typed, or doubted, and only then takes the last entry back, saying which", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G.slice(0, 1)).types("39");
    expect(hands.undoes().run).toMatchObject({ typed: "", message: expect.stringContaining("39 is dropped") });
    expect(hands.run.draft.weighings[0]?.emptyG).toBe(412.31);
    hands.enters("9999");
    expect(hands.run.doubt).not.toBeNull();
    expect(hands.undoes().run).toMatchObject({ typed: "", doubt: null, at: 1 });
    expect(hands.run.draft.weighings[0]?.emptyG).toBe(412.31);
    expect(hands.undoes().run).toMatchObject({ at: 0, message: "taken back: 1.40 mm empty, 412.31 g" });
    expect(hands.run.draft.weighings[0]?.emptyG).toBeNull();
  });
});

describe("whatever order the rows are weighed in", () => {
  const anyOrder = fc.shuffledSubarray(ALL_ROWS, { minLength: 6 });
  function goTo(hands: Hands, row: number): Hands {
    while (hands.run.at > row) hands.does({ type: "rowUp" });
    while (hands.run.at < row) hands.does({ type: "rowDown" });
    return hands;
  }
  /** Every row of a column weighed, going to each with Up and Down. */
  function inOrder(hands: Hands, rows: readonly number[], masses: readonly number[]): Hands {
    for (const row of rows) {
      goTo(hands, row).enters(String(masses[row]));
      if (hands.run.doubt) hands.enter();
    }
    return hands;
  }

  test("the same masses stand in the same rows, and the work goes on", () => {
    fc.assert(
      fc.property(anyOrder, anyOrder, (empties, fulls) => {
        const hands = inOrder(new Hands().setsOut(), empties, EMPTY_G).shakes();
        inOrder(hands, fulls, FULL_G);
        const { weighings, stage, trail } = draftOf(hands);
        expect(stage).toBe("result");
        expect(weighings).toEqual(draftOf(new Hands().tests()).weighings);
        const order = trail.filter((item) => item.field === "emptyG").map((item) => item.apertureUm);
        expect(order).toEqual(empties.map((row) => weighings[row]?.apertureUm));
      }),
      { numRuns: 60 },
    );
  });

  test("each accepted mass has the nearest unweighed row in hand next, downwards first", () => {
    fc.assert(
      fc.property(anyOrder, (rows) => {
        const hands = new Hands().setsOut();
        for (const [i, row] of rows.entries()) {
          goTo(hands, row).enters(String(EMPTY_G[row]));
          const left = rows.slice(i + 1);
          if (left.length === 0) continue;
          const below = left.filter((other) => other > row);
          expect(hands.run.at).toBe(below.length > 0 ? Math.min(...below) : Math.max(...left));
        }
      }),
    );
  });
});

test("every stage is reached from every other by choice, and nothing entered is lost on the way", () => {
  const stages: readonly Stage[] = ["set out", "weigh empty", "shake", "weigh full", "result"];
  const hands = new Hands().tests();
  const { weighings, trail, chargeG } = draftOf(hands);
  for (const from of stages) {
    for (const to of stages) {
      hands.does({ type: "stageChosen", stage: from }).does({ type: "stageChosen", stage: to });
      expect(draftOf(hands)).toMatchObject({ stage: to, weighings, trail, chargeG });
    }
  }
});
