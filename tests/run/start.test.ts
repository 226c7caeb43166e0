import { describe, expect, test } from "vitest";
import { DraftSchema } from "../../src/record/draft.ts";
import type { Weighing } from "../../src/record/test.ts";
import { nextRow, programOf, resumeRun, rowsToWeigh, startRun } from "../../src/run/start.ts";
import { BARLEY, EMPTY_G, FILTER_SAND, FULL_G, Hands, SETTING, TEN_MINUTES } from "./hands.ts";

const IDENTITY = { testId: "t1", station: "TH-DRY1", at: "2026-11-24T03:00:00+01:00" };
const LAST = { lot: "4471-B", line: "Dryer 1", samplingPoint: "discharge" };
const KNOWN = { last: null, shiftBegan: "2026-11-23T22:00:00+01:00", dayBegan: "2026-11-23T06:00:00+01:00" };
const LATER = { ...KNOWN, shiftBegan: "2026-11-24T06:00:00+01:00" };
const setting = (balanceKnown = KNOWN) => ({ ...SETTING, balanceKnown });
const resumed = (hands: Hands, known = LATER) => resumeRun(hands.run.draft, setting(known));

describe("a new test", () => {
  test("begins with nothing accepted, nothing weighed and the last test's words standing", () => {
    const { draft, at, typed, doubt, message } = startRun(FILTER_SAND, LAST, SETTING, IDENTITY);
    expect(draft).toMatchObject({ ...LAST, stage: "set out", chargeG: null, trail: [], startedAt: IDENTITY.at });
    expect({ at, typed, doubt, message }).toEqual({ at: 0, typed: "", doubt: null, message: null });
    expect(DraftSchema.safeParse(draft).success).toBe(true);
  });

  test("holds its own copy of what it will be judged against", () => {
    const { draft } = startRun(FILTER_SAND, LAST, setting(), IDENTITY);
    expect(draft).toMatchObject({
      product: FILTER_SAND,
      program: TEN_MINUTES,
      balance: SETTING.balance,
      balanceKnown: KNOWN,
    });
  });

  test("says nothing of the balance where nothing is known of it", () => {
    expect(startRun(FILTER_SAND, LAST, SETTING, IDENTITY).draft).not.toHaveProperty("balanceKnown");
  });
});

describe("the rows to weigh", () => {
  test("are the stack coarsest first with the pan last, and leave the product's own list as it is", () => {
    expect(rowsToWeigh(FILTER_SAND).map((w) => w.apertureUm)).toEqual([1400, 1000, 710, 500, 355, 0]);
    expect(FILTER_SAND.stackUm[0]).toBe(355);
    expect(rowsToWeigh(BARLEY).every((w) => w.emptyG === null && w.fullG === null)).toBe(true);
  });
});

describe("the program of a product", () => {
  test("is the one that its method names, if the library has it", () => {
    expect(programOf(FILTER_SAND, [TEN_MINUTES])).toBe(TEN_MINUTES);
    expect(programOf(FILTER_SAND, [{ ...TEN_MINUTES, code: "V20" }])).toBeNull();
    expect(programOf(BARLEY, [TEN_MINUTES])).toBeNull();
  });
});

describe("the next row", () => {
  const rows = (weighed: string): Weighing[] =>
    [...weighed].map((mark, i) => ({ apertureUm: 1000 - i, emptyG: mark === "x" ? 400 : null, fullG: null }));

  test.each([
    ["......", -1, 0],
    ["xx....", 1, 2],
    ["xxx.xx", 2, 3],
    ["x.xx..", 3, 4],
    ["...xxx", 5, 2],
    ["x.xxxx", 5, 1],
    ["x..xxx", 4, 2],
    ["xxxxxx", 2, null],
  ])("of %s from row %d is %s: the nearest below, else the nearest above", (weighed, from, row) => {
    expect(nextRow(rows(weighed), "emptyG", from)).toBe(row);
  });
});

describe("a draft taken up again", () => {
  test("has the first unweighed row in hand", () => {
    expect(resumed(new Hands().setsOut().weighs(EMPTY_G.slice(0, 3))).at).toBe(3);
    const full = new Hands().setsOut().weighs(EMPTY_G).shakes().weighs(FULL_G.slice(0, 2));
    expect(resumed(full)).toMatchObject({ at: 2, draft: { stage: "weigh full" } });
    expect(resumed(new Hands().tests())).toMatchObject({ at: 0, draft: { stage: "result" } });
  });

  test("in which nothing is weighed yet learns what is known of the balance now", () => {
    expect(resumed(new Hands(setting()).enter(3)).draft.balanceKnown).toEqual(LATER);
  });

  test("in which something was weighed keeps what was known when it was set out", () => {
    expect(resumed(new Hands(setting()).setsOut()).draft.balanceKnown).toEqual(KNOWN);
    expect(resumed(new Hands(setting()).enter(5).weighs([412.31])).draft.balanceKnown).toEqual(KNOWN);
  });

  test("keeps everything that was accepted in it", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G.slice(0, 3));
    expect(resumeRun(hands.run.draft, SETTING).draft).toBe(hands.run.draft);
  });
});
