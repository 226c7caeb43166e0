import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import {
  balanceState,
  type CheckInterval,
  hasPassed,
  isWithinTolerance,
} from "../../../src/procedure/balance/balanceState.ts";
import { type BalanceClass, balanceLimitG, weightLimitMg } from "../../../src/procedure/balance/limits.ts";
import type { BalanceCheck } from "../../../src/record/checks.ts";

const check = (at: string, readG: number): BalanceCheck => ({
  at,
  balance: "BAL-1",
  by: "KO",
  readings: [{ weight: "W-500", nominalG: 500, readG, toleranceG: 0.1 }],
});
const good = (at: string) => check(at, 500.05);
const bad = (at: string) => check(at, 500.3);

const NOW = "2026-11-24T03:12:00+01:00";
const SHIFT: CheckInterval = { per: "shift", began: "2026-11-23T22:00:00+01:00" };
const EIGHT_HOURS: CheckInterval = { per: "hours", hours: 8 };

describe("one reading", () => {
  test.each([
    [500, true],
    [500.1, true],
    [499.9, true],
    [500.11, false],
    [499.89, false],
    [-500, false],
  ])("of %d g for a weight of 500 g with 0.1 g allowed: %s", (readG, within) =>
    expect(isWithinTolerance({ nominalG: 500, readG, toleranceG: 0.1 })).toBe(within),
  );

  test("that fails lets the whole check fail", () => {
    const both = { ...good(NOW), readings: [...good(NOW).readings, ...bad(NOW).readings] };
    expect(hasPassed(good(NOW))).toBe(true);
    expect(hasPassed(both)).toBe(false);
  });
});

describe("the balance when a test is weighed", () => {
  test("is unchecked where no check is known", () =>
    expect(balanceState([], NOW, SHIFT)).toEqual({
      state: "unchecked",
      last: null,
      suspectSince: null,
      text: "the balance was never checked",
    }));

  test("is checked by a good check of this shift", () => {
    const state = balanceState([good("2026-11-23T22:04:00+01:00")], NOW, SHIFT);
    expect(state).toMatchObject({ state: "checked", suspectSince: null, text: "the balance is checked" });
  });

  test("is overdue where the last good check was before this shift", () => {
    const state = balanceState([good("2026-11-23T21:55:00+01:00")], NOW, SHIFT);
    expect(state).toMatchObject({ state: "overdue", text: "the balance was last checked before this shift" });
  });

  test("failed where the latest check failed, and tells since when results are suspect", () => {
    const state = balanceState([good("2026-11-23T22:04:00+01:00"), bad("2026-11-24T02:00:00+01:00")], NOW, SHIFT);
    expect(state).toMatchObject({
      state: "failed",
      suspectSince: "2026-11-23T22:04:00+01:00",
      text: "the balance failed its check: 500.0 g read 500.3 g, allowed 0.100 g either way",
    });
  });

  test("failed without any good check has no moment since when", () =>
    expect(balanceState([bad("2026-11-24T02:00:00+01:00")], NOW, SHIFT).suspectSince).toBeNull());

  test("is checked again after a good check follows the failed one", () => {
    const checks = [bad("2026-11-24T02:00:00+01:00"), good("2026-11-24T02:20:00+01:00")];
    expect(balanceState(checks, NOW, SHIFT).state).toBe("checked");
  });

  test("is judged by what was known then: a later check changes nothing", () => {
    const later = [good("2026-11-24T02:00:00+01:00"), bad("2026-11-24T04:00:00+01:00")];
    expect(balanceState(later, NOW, SHIFT).state).toBe("checked");
  });

  test("is judged by time, whatever the order of the checks or their offset", () => {
    const utc = [bad("2026-11-24T01:50:00Z"), good("2026-11-24T02:40:00+01:00")];
    expect(balanceState(utc, NOW, SHIFT).state).toBe("failed");
    expect(balanceState(utc.toReversed(), NOW, SHIFT).state).toBe("failed");
  });

  test.each([
    ["2026-11-23T19:12:00+01:00", "checked"],
    ["2026-11-23T19:11:59+01:00", "overdue"],
  ])("within 8 h, last checked %s: %s", (at, state) =>
    expect(balanceState([good(at)], NOW, EIGHT_HOURS).state).toBe(state),
  );

  test("says which period is over", () => {
    const old = [good("2026-11-20T08:00:00+01:00")];
    expect(balanceState(old, NOW, EIGHT_HOURS).text).toBe("the balance was last checked before this period of 8 h");
    expect(balanceState(old, NOW, { per: "day", began: "2026-11-23T06:00:00+01:00" }).text).toBe(
      "the balance was last checked before this day",
    );
  });

  test("never turns from overdue to checked as time goes on without a check", () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 100 }),
        fc.integer({ min: 0, max: 100 }),
        fc.integer({ min: 1, max: 48 }),
        (hoursAgo, laterH, hours) => {
          const at = (h: number) => new Date(Date.parse(NOW) + h * 3_600_000).toISOString();
          const state = (nowH: number) => balanceState([good(at(-hoursAgo))], at(nowH), { per: "hours", hours }).state;
          if (state(0) === "overdue") expect(state(laterH)).toBe("overdue");
        },
      ),
    ));
});

describe("limits of check weights, OIML R 111 (memory)", () => {
  const rows: [number, number, number, number][] = [
    [50, 0.3, 1, 3],
    [100, 0.5, 1.6, 5],
    [200, 1, 3, 10],
    [500, 2.5, 8, 25],
    [1000, 5, 16, 50],
    [2000, 10, 30, 100],
    [5000, 25, 80, 250],
  ];

  test.each(rows)("%d g: F1 %d mg, F2 %d mg, M1 %d mg", (nominalG, f1, f2, m1) => {
    expect(weightLimitMg(nominalG, "F1")).toEqual({
      determinable: true,
      value: f1,
      unit: "mg",
      assumptions: ["recalled"],
    });
    expect(weightLimitMg(nominalG, "F2")).toMatchObject({ value: f2 });
    expect(weightLimitMg(nominalG, "M1")).toMatchObject({ value: m1 });
  });

  test("scale to the 2000 kg and 5000 kg rows that were seen: 10, 30, 100 g and 25, 80, 250 g", () => {
    const grams = (nominalG: number, weightClass: "F1" | "F2" | "M1") => {
      const limit = weightLimitMg(nominalG, weightClass);
      return limit.determinable ? limit.value : Number.NaN;
    };
    const seen = { 2000: [10_000, 30_000, 100_000], 5000: [25_000, 80_000, 250_000] };
    for (const [nominal, limitsMg] of Object.entries(seen))
      (["F1", "F2", "M1"] as const).forEach((weightClass, i) => {
        expect(1000 * grams(Number(nominal), weightClass)).toBe(limitsMg[i]);
      });
  });

  test("are not known for other masses", () =>
    expect(weightLimitMg(150, "F1")).toEqual({
      determinable: false,
      reason: "no limit is known here for a weight of 150 g",
    }));
});

describe("limits of balances, OIML R 76 (steps seen, twice that in service from memory)", () => {
  test.each<[BalanceClass, number, number]>([
    ["I", 50_000, 200_000],
    ["II", 5000, 20_000],
    ["III", 500, 2000],
    ["IIII", 50, 200],
  ])("class %s steps at %d and %d intervals", (balanceClass, half, one) => {
    const intervals = (loadE: number) => balanceLimitG(balanceClass, 0.1, loadE / 10);
    expect(intervals(half)).toMatchObject({ value: 0.1 });
    expect(intervals(half + 1)).toMatchObject({ value: 0.2 });
    expect(intervals(one)).toMatchObject({ value: 0.2 });
    const beyond = intervals(one + 1);
    expect(beyond.determinable ? beyond.value : 0).toBeCloseTo(0.3, 12);
  });

  test.each<[BalanceClass, number]>([
    ["II", 100_000],
    ["III", 10_000],
    ["IIII", 1000],
  ])("class %s ends at %d intervals", (balanceClass, most) => {
    expect(balanceLimitG(balanceClass, 1, most).determinable).toBe(true);
    expect(balanceLimitG(balanceClass, 1, most + 1).determinable).toBe(false);
  });
});

describe("the table of limits", () => {
  test("has the shape that the program takes for granted", () => {
    const path = join(import.meta.dirname, "../../../data/check-weights.json");
    const mg = z.number().positive();
    const schema = z.strictObject({
      about: z.array(z.string()),
      weights: z.strictObject({
        source: z.string(),
        status: z.literal("memory"),
        note: z.string(),
        rows: z.array(z.strictObject({ nominalG: mg, F1: mg, F2: mg, M1: mg })),
      }),
      balances: z.strictObject({
        source: z.string(),
        status: z.literal("seen"),
        inService: z.strictObject({ factor: z.literal(2), status: z.literal("memory") }),
        rows: z.array(
          z.strictObject({
            class: z.enum(["I", "II", "III", "IIII"]),
            halfUpToE: mg,
            oneUpToE: mg,
            mostE: mg.nullable(),
          }),
        ),
      }),
    });
    expect(schema.parse(JSON.parse(readFileSync(path, "utf8"))).weights.rows.length).toBe(7);
  });
});
