import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Tries } from "../../src/record/operators.ts";
import {
  notAhead,
  oneMoreTry,
  triesOf,
  waitAfterMs,
  waitLeftMs,
  waitWords,
  withoutTries,
} from "../../src/record/signOnWait.ts";

const MINUTE_MS = 60_000;
const at = (ms: number) => new Date(Date.UTC(2026, 10, 24) + ms).toISOString();
const tries = (count: number, lastAt = at(0)): Tries => ({ who: "KO", count, lastAt });
const keepsNobody = () => false;

describe("the wait after wrong PINs", () => {
  test.each([
    [0, 0],
    [1, 0],
    [2, 0],
    [3, 30_000],
    [4, 60_000],
    [5, 120_000],
    [9, 32 * MINUTE_MS],
    [10, 60 * MINUTE_MS],
    [11, 60 * MINUTE_MS],
    [100_000, 60 * MINUTE_MS],
  ])("after %i in a row is %i ms", (count, ms) => expect(waitAfterMs(count)).toBe(ms));

  test("never shrinks with another wrong one", () =>
    fc.assert(
      fc.property(fc.nat(100_000), (count) => {
        expect(waitAfterMs(count + 1)).toBeGreaterThanOrEqual(waitAfterMs(count));
      }),
    ));

  test("runs out as time goes by", () => {
    expect(waitLeftMs(tries(4), at(0))).toBe(60_000);
    expect(waitLeftMs(tries(4), at(45_000))).toBe(15_000);
    expect(waitLeftMs(tries(4), at(60_000))).toBe(0);
    expect(waitLeftMs(tries(4), at(3_600_000))).toBe(0);
    expect(waitLeftMs(tries(2), at(0))).toBe(0);
  });

  test("is not shortened by setting the clock back, and ends all the same once it is counted from there", () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 20 }),
        fc.integer({ min: 1, max: 400 * 24 * 3_600_000 }),
        (count, backMs) => {
          const setBack = at(-backMs);
          const whole = waitAfterMs(count);
          expect(waitLeftMs(tries(count), setBack)).toBe(whole);
          const counted = notAhead(tries(count), setBack);
          expect(waitLeftMs(counted, at(-backMs + whole - 1))).toBe(1);
          expect(waitLeftMs(counted, at(-backMs + whole))).toBe(0);
        },
      ),
    ));

  test("a try in the past is left as it is", () => {
    const past = tries(3);
    expect(notAhead(past, at(1))).toBe(past);
  });
});

describe("counting tries", () => {
  test("goes on from where it was, in any case of the initials", () => {
    const first = oneMoreTry([], "KO", at(0), keepsNobody);
    const second = oneMoreTry(first, "ko", at(1), keepsNobody);
    expect(second).toEqual([{ who: "ko", count: 2, lastAt: at(1) }]);
    expect(triesOf(second, "Ko")?.count).toBe(2);
    expect(withoutTries(second, "kO")).toEqual([]);
  });

  test("keeps each one's apart", () => {
    const both = oneMoreTry(oneMoreTry([], "KO", at(0), keepsNobody), "ML", at(1), keepsNobody);
    expect(both.map(({ who, count }) => [who, count])).toEqual([
      ["KO", 1],
      ["ML", 1],
    ]);
  });

  test("gives up the oldest of strangers for want of room, never those of the station", () => {
    let all: Tries[] = oneMoreTry([], "KO", at(0), keepsNobody);
    for (let i = 0; i < 1000; i += 1) all = oneMoreTry(all, `x${i}`, at(1 + i), (who) => who === "KO");
    expect(all.length).toBeLessThanOrEqual(401);
    expect(triesOf(all, "KO")?.count).toBe(1);
    expect(triesOf(all, "x999")).toBeDefined();
    expect(triesOf(all, "x0")).toBeUndefined();
  });
});

describe("a wait in words", () => {
  test.each([
    [1, "1 s"],
    [30_000, "30 s"],
    [29_001, "30 s"],
    [119_000, "119 s"],
    [120_000, "2 min"],
    [120_001, "3 min"],
    [3_540_000, "59 min"],
    [3_600_000, "1 h"],
  ])("%i ms is %s", (ms, words) => expect(waitWords(ms)).toBe(words));
});
