import { describe, expect, test } from "vitest";
import { conductOf } from "../../src/procedure/conductOf.ts";
import type { BalanceCheck } from "../../src/record/checks.ts";
import type { Draft } from "../../src/record/draft.ts";
import type { ProcedureChoice } from "../../src/record/procedure.ts";
import { EMPTY_G, FILTER_SAND, FULL_G, Hands, NET_G } from "../run/hands.ts";

const conduct = ({ run }: Hands) => conductOf(run.draft);
const changed = (change: Partial<Draft>, hands = new Hands().tests()) => conductOf({ ...hands.run.draft, ...change });
const by = (procedure: Omit<ProcedureChoice, "ruleSet">) => ({
  ...FILTER_SAND,
  method: { procedure: { ruleSet: "own" as const, ...procedure } },
});

const minute = (hands: Hands): Hands => hands.does({ type: "checkMinuteStarted", at: hands.moment() });
/** A full mass less so many hundredths of a gram, as it is typed. */
const less = (row: number, hundredths: number) => (Math.round((FULL_G[row] ?? 0) * 100) - hundredths) / 100;
const again = (hands: Hands, row: number, hundredths: number): Hands => {
  while (hands.run.at < row) hands.enter();
  hands.enters(String(less(row, hundredths)));
  return hands.run.doubt ? hands.enter() : hands;
};

describe("the end point", () => {
  test("has no reading where no check minute was run, though a mass was corrected", () => {
    expect(conduct(new Hands().tests()).endPoint).toEqual([]);
    const corrected = new Hands().tests().does({ type: "stageChosen", stage: "weigh full" });
    expect(conduct(again(corrected, 0, 2)).endPoint).toEqual([]);
  });

  test("has none where nothing was weighed again", () => {
    expect(conduct(minute(new Hands().tests()).enter(6)).endPoint).toEqual([]);
  });

  test("of each sieve weighed again has its mass before and after; the pan is no sieve", () => {
    const hands = minute(new Hands().tests());
    for (const [row, hundredths] of [1, 6, 10, 8, 3, -28].entries()) again(hands, row, hundredths);
    const readings = conduct(hands).endPoint ?? [];
    expect(readings.map((r) => r.apertureUm)).toEqual([1400, 1000, 710, 500, 355]);
    expect(readings.map((r) => r.beforeG)).toEqual(NET_G.slice(0, 5));
    expect(readings.map((r) => r.afterG)).toEqual([5.7, 56.4, 112.2, 92.1, 28.72]);
  });

  test("what passed a sieve is what it and the coarser ones lost, while none of those was left out", () => {
    const hands = minute(new Hands().tests());
    for (const [row, hundredths] of [1, 6, 10].entries()) again(hands, row, hundredths);
    const passed = conduct(hands).endPoint?.map((r) => Math.round((r.passedG ?? Number.NaN) * 100) / 100);
    expect(passed).toEqual([0.01, 0.07, 0.17]);
  });

  test("below a sieve that was left out only its own loss is known", () => {
    const hands = again(again(minute(new Hands().tests()), 0, 1), 2, 10);
    expect(conduct(hands).endPoint).toEqual([
      { apertureUm: 1400, beforeG: 5.71, afterG: 5.7, passedG: expect.closeTo(0.01, 9) },
      { apertureUm: 710, beforeG: 112.3, afterG: 112.2 },
    ]);
  });

  test("of a sieve that held nothing is no reading", () => {
    const nothing = new Hands()
      .setsOut()
      .weighs(EMPTY_G)
      .shakes()
      .weighs([412.31, ...FULL_G.slice(1, 5), 364.31]);
    const hands = minute(nothing.enter());
    expect(hands.run.draft.checkMinute).not.toBeUndefined();
    expect(conduct(again(again(hands, 0, 571), 1, 6)).endPoint?.map((r) => r.apertureUm)).toEqual([1000]);
  });

  test("follows what is taken back: the mass alone, and the minute with it", () => {
    const hands = again(again(minute(new Hands().tests()), 0, 1), 1, 6);
    expect(conduct(hands).endPoint).toHaveLength(2);
    expect(conduct(hands.undoes()).endPoint?.map((r) => r.apertureUm)).toEqual([1400]);
    expect(conduct(hands.undoes()).endPoint).toEqual([]);
    expect(conduct(hands.undoes()).endPoint).toEqual([]);
    expect(hands.run.draft.checkMinute).toBeNull();
  });

  test("of a second minute is judged by that minute alone", () => {
    const hands = again(again(minute(new Hands().tests()), 0, 20), 1, 60);
    again(minute(hands), 0, 21);
    expect(conduct(hands).endPoint).toMatchObject([{ apertureUm: 1400, beforeG: 5.51, afterG: 5.5 }]);
  });
});

describe("the balance", () => {
  const check = (at: string, readG = 500): BalanceCheck => ({
    at,
    balance: "B1",
    by: "KO",
    readings: [{ nominalG: 500, readG, toleranceG: 0.03 }],
  });
  const known = (last: BalanceCheck | null) => ({
    last,
    shiftBegan: "2026-11-23T22:00:00+01:00",
    dayBegan: "2026-11-23T06:00:00+01:00",
  });
  const state = (last: BalanceCheck | null, procedure: Omit<ProcedureChoice, "ruleSet"> = {}) =>
    changed({ product: by(procedure), balanceKnown: known(last) }).balance?.state;

  test("of which nothing is known is no fact at all", () => {
    expect(changed({})).not.toHaveProperty("balance");
  });

  test("was never checked where no check is known", () => {
    expect(state(null)).toBe("unchecked");
  });

  test("is due once a shift unless the product says otherwise", () => {
    expect(state(check("2026-11-23T22:04:00+01:00"))).toBe("checked");
    expect(state(check("2026-11-23T21:04:00+01:00"))).toBe("overdue");
  });

  test("by the day is good for all its shifts", () => {
    const perDay = { balance: { interval: "day" as const } };
    expect(state(check("2026-11-23T06:30:00+01:00"), perDay)).toBe("checked");
    expect(state(check("2026-11-23T05:30:00+01:00"), perDay)).toBe("overdue");
  });

  test("by hours counts back from when the test was set out", () => {
    const hourly = { balance: { interval: { hours: 4 } } };
    expect(state(check("2026-11-23T23:00:00+01:00"), hourly)).toBe("checked");
    expect(state(check("2026-11-23T22:59:59+01:00"), hourly)).toBe("overdue");
  });

  test("that failed its check has failed, however lately", () => {
    expect(state(check("2026-11-24T02:59:00+01:00", 500.04))).toBe("failed");
  });
});

describe("how the shaker ran", () => {
  const onShaker = () =>
    new Hands().setsOut().weighs(EMPTY_G).does({ type: "shakingStarted", at: "2026-11-24T03:05:00+01:00" });

  test("to its end is as planned", () => {
    expect(conduct(new Hands().tests())).toMatchObject({ program: { code: "V10" }, run: {} });
  });

  test("is not known before it has ended", () => {
    expect(conduct(onShaker()).run).toBeNull();
  });

  test("cut short is as long as it ran by the clock", () => {
    const hands = onShaker().does({ type: "shakingSkipped", reason: "clamp", at: "2026-11-24T03:09:00+01:00" });
    expect(conduct(hands).run).toEqual({ durationS: 240 });
  });

  test("skipped without a start is not known, unless it was noted", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G);
    hands.does({ type: "shakingSkipped", reason: "by hand", at: hands.moment() });
    expect(conduct(hands).run).toBeNull();
    expect(changed({ ran: { durationS: 300 } }, hands).run).toEqual({ durationS: 300 });
  });

  test("otherwise is what was noted; the clock beats the note where it was cut short", () => {
    const hands = onShaker().does({
      type: "ranOtherwise",
      ran: { frequencyHz: 45, durationS: 500 },
      at: "2026-11-24T03:06:00+01:00",
    });
    hands.does({ type: "shakingSkipped", reason: "clamp", at: "2026-11-24T03:09:00+01:00" });
    expect(conduct(hands).run).toEqual({ frequencyHz: 45, durationS: 240 });
  });

  test("is no question without a program", () => {
    expect(changed({ program: null })).toMatchObject({ program: null, run: null });
  });
});

describe("the most that each sieve held", () => {
  const second = FULL_G.map((full, row) => Math.round((full + (row < 3 ? -1 : 1)) * 100) / 100);
  const inTwo = () => {
    const hands = new Hands().setsOut("610").weighs(EMPTY_G).shakes().weighs(FULL_G);
    return hands.does({ type: "portionAdded", at: hands.moment() }).shakes().weighs(second);
  };

  test("in portions is that of the heavier one, not their sum", () => {
    const most = conduct(inTwo()).mostHeldG;
    expect([...(most ?? [])]).toEqual([
      [1400, 5.71],
      [1000, 56.46],
      [710, 112.3],
      [500, 93.18],
      [355, 29.75],
      [0, 5.5],
    ]);
  });

  test("at once needs no word: what it holds is told by the grading", () => {
    expect(conduct(new Hands().tests()).mostHeldG?.size).toBe(0);
  });
});

describe("the moisture", () => {
  test("is known once both masses are, on the dry basis", () => {
    expect(changed({ moistG: 52.5, dryG: 50 }).moisturePct).toBe(5);
  });

  test.each([
    [{}],
    [{ moistG: 52.5 }],
    [{ moistG: 52.5, dryG: null }],
    [{ moistG: null, dryG: 50 }],
    [{ moistG: 50, dryG: 52.5 }],
  ])("of %j is no fact", (masses) => {
    expect(changed(masses)).not.toHaveProperty("moisturePct");
  });
});

test("a first portion cut short counts, although the last one ran as planned", () => {
  const hands = new Hands().setsOut().weighs(EMPTY_G);
  hands.does({ type: "shakingStarted", at: "2026-11-24T03:10:00+01:00" });
  hands.does({ type: "shakingSkipped", reason: "hurry", at: "2026-11-24T03:10:20+01:00" });
  hands.weighs(FULL_G).does({ type: "portionAdded", at: hands.moment() });
  hands.shakes();
  expect(conductOf(hands.run.draft).run).toMatchObject({ durationS: 20 });
});
