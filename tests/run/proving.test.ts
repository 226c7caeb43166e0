import { describe, expect, test } from "vitest";
import { DraftSchema } from "../../src/record/draft.ts";
import type { TrailItem } from "../../src/record/test.ts";
import { minuteToGo } from "../../src/run/proving.ts";
import { EMPTY_G, FULL_G, Hands } from "./hands.ts";

const minute = (hands: Hands): Hands => hands.does({ type: "checkMinuteStarted", at: hands.moment() });
const portion = (hands: Hands): Hands => hands.does({ type: "portionAdded", at: hands.moment() });
const rans = (hands: Hands, ran: object): Hands => hands.does({ type: "ranOtherwise", ran, at: hands.moment() });
const fullsOf = ({ run }: Hands) => run.draft.weighings.map((w) => w.fullG);
const lastItem = ({ run }: Hands): TrailItem | undefined => run.draft.trail.at(-1);

/** What each sieve weighs full after a minute in which 0.05 g passed each of them. */
const LATER_G = FULL_G.map((full, i) => Math.round((i === 5 ? full + 0.25 : full - 0.05) * 100) / 100);

describe("the check minute", () => {
  test("notes what every sieve and the pan weighed full, and has them weighed again from the top", () => {
    const { run } = minute(new Hands().tests());
    expect(run).toMatchObject({ at: 0, draft: { stage: "weigh full" } });
    expect(run.draft.checkMinute?.before).toEqual(
      [1400, 1000, 710, 500, 355, 0].map((apertureUm, i) => ({ apertureUm, fullG: FULL_G[i] })),
    );
    expect(DraftSchema.safeParse(run.draft).success).toBe(true);
  });

  test("keeps the masses in their rows: Enter alone takes each as it was", () => {
    const hands = minute(new Hands().tests());
    const entries = hands.run.draft.trail.length;
    hands.enter(6);
    expect(hands.run.draft.stage).toBe("result");
    expect(fullsOf(hands)).toEqual(FULL_G);
    expect(hands.run.draft.trail).toHaveLength(entries);
  });

  test("goes from row to row as each is weighed again, and after the pan to the result", () => {
    const hands = minute(new Hands().tests());
    const rows: number[] = [];
    for (const grams of LATER_G) {
      rows.push(hands.run.at);
      hands.enters(String(grams)).enter(hands.run.doubt ? 1 : 0);
    }
    expect(rows).toEqual([0, 1, 2, 3, 4, 5]);
    expect(hands.run.draft.stage).toBe("result");
    expect(fullsOf(hands)).toEqual(LATER_G);
  });

  test("can be broken off at any row: the rest keeps its masses", () => {
    const hands = minute(new Hands().tests()).enters(String(LATER_G[0]));
    expect(hands.run.at).toBe(1);
    expect(fullsOf(hands).slice(1)).toEqual(FULL_G.slice(1));
  });

  test("is refused while a sieve is not weighed full", () => {
    const hands = minute(new Hands().setsOut().weighs(EMPTY_G).shakes().weighs(FULL_G.slice(0, 3)));
    expect(hands.run.message).toBe("weigh every sieve and the pan first");
    expect(hands.run.draft.checkMinute).toBeUndefined();
  });

  test("taken back leaves the masses and no minute behind", () => {
    const hands = minute(new Hands().tests()).enters(String(LATER_G[0])).undoes().undoes();
    expect(fullsOf(hands)).toEqual(FULL_G);
    expect(hands.run.draft).toMatchObject({ stage: "weigh full", checkMinute: null });
    expect(lastItem(hands)).toMatchObject({ field: "checkMinute", undo: true });
  });

  test("a second one taken back has the first one stand again", () => {
    const hands = minute(new Hands().tests());
    const first = hands.run.draft.checkMinute;
    minute(hands.weighs(LATER_G));
    expect(hands.run.draft.checkMinute).not.toEqual(first);
    expect(hands.undoes().run.draft.checkMinute).toEqual(first);
  });
});

describe("the seconds of the check minute", () => {
  const { draft } = minute(new Hands().tests()).run;
  const beganMs = Date.parse(draft.checkMinute?.at ?? "");

  test.each([
    [0, 60],
    [17.5, 42.5],
    [60, 0],
    [3600, 0],
    [-600, 60],
  ])("%d s after its start: %d to go", (goneS, toGoS) => {
    expect(minuteToGo(draft, beganMs + goneS * 1000)).toBe(toGoS);
  });

  test("are none where none was begun", () => {
    expect(minuteToGo(new Hands().tests().run.draft, beganMs)).toBeNull();
    expect(minuteToGo({ ...draft, checkMinute: null }, beganMs)).toBeNull();
  });
});

describe("a shaker that ran otherwise", () => {
  const onShaker = () => new Hands().setsOut().weighs(EMPTY_G);

  test("has what was noted on record, in words on the trail", () => {
    const hands = rans(onShaker(), { durationS: 480, frequencyHz: 45 });
    expect(hands.run.draft.ran).toEqual({ durationS: 480, frequencyHz: 45 });
    expect(lastItem(hands)).toMatchObject({ field: "ran", from: null, to: "durationS 480, frequencyHz 45" });
    expect(hands.run.draft.stage).toBe("shake");
    expect(DraftSchema.safeParse(hands.run.draft).success).toBe(true);
  });

  test("noted twice keeps both notes, the later one where they differ", () => {
    const hands = rans(rans(onShaker(), { durationS: 480, frequencyHz: 45 }), { durationS: 500, strokeMm: 1.2 });
    expect(hands.run.draft.ran).toEqual({ durationS: 500, frequencyHz: 45, strokeMm: 1.2 });
  });

  test("taken back has the note before stand again, and none at last", () => {
    const hands = rans(rans(onShaker(), { durationS: 480 }), { durationS: 500, strokeMm: 1.2 }).undoes();
    expect(hands.run.draft.ran).toEqual({ durationS: 480 });
    expect("ran" in hands.undoes().run.draft).toBe(false);
    expect(hands.run.draft.stage).toBe("shake");
  });
});

describe("a check minute and portions", () => {
  test("another portion is refused while a check minute stands, and is possible once that is taken back", () => {
    const hands = minute(new Hands().tests());
    const before = hands.run.draft;
    expect(portion(hands).run.message).toContain("check minute would be lost");
    expect(hands.run.draft).toBe(before);
    portion(hands.undoes());
    expect(hands.run.draft).toMatchObject({ stage: "shake", checkMinute: null });
  });

  test("of the second portion notes what that portion weighed, not the first", () => {
    const second = FULL_G.map((full, i) => Math.round((full - (i + 1) * 0.1) * 100) / 100);
    const hands = portion(new Hands().setsOut("700").weighs(EMPTY_G).shakes().weighs(FULL_G)).shakes().weighs(second);
    minute(hands);
    expect(hands.run.draft.checkMinute?.before.map((b) => b.fullG)).toEqual(second);
    const noted = hands.run.draft.checkMinute;
    minute(hands.enter(6));
    expect(hands.undoes().run.draft.checkMinute).toEqual(noted);
  });
});

test("a portion that would lose the check minute of the one before is refused", () => {
  const hands = new Hands().tests();
  hands.does({ type: "checkMinuteStarted", at: hands.moment() });
  const before = hands.run.draft;
  hands.does({ type: "portionAdded", at: hands.moment() });
  expect(hands.run.message).toContain("check minute would be lost");
  expect(hands.run.draft).toBe(before);
});
