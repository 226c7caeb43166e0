import { describe, expect, test } from "vitest";
import { cleanedLevel } from "../../../src/care/tare/cleanedLevel.ts";
import { actionLimitG, type EmptyWeighing } from "../../../src/care/tare/history.ts";

const at = (k: number) => new Date(Date.UTC(2026, 0, 1 + k)).toISOString();
const weighings = (masses: readonly number[], cleanedAt: readonly number[] = []): EmptyWeighing[] =>
  masses.map((emptyG, k) => ({
    at: at(k),
    emptyG,
    round: `t${k}`,
    ...(cleanedAt.includes(k) ? { cleaned: true } : {}),
  }));
const BALANCE = { readabilityG: 0.01 };

describe("a sieve's own cleaned level", () => {
  test("is the median of its first twelve weighings", () => {
    const first = [412.3, 412.31, 412.3, 412.29, 412.3, 412.31, 412.3, 412.3, 412.29, 412.3, 412.31, 412.3];
    const found = cleanedLevel(weighings([...first, 413, 413, 413]), BALANCE);
    expect(found).toMatchObject({ levelG: 412.3, learnt: 12 });
  });

  test("is learnt from the first cleaning on, so that grains from before it do not count", () => {
    const dirty = [412.9, 412.9, 412.91, 412.9];
    const clean = [412.3, 412.31, 412.3, 412.3, 412.29, 412.3];
    expect(cleanedLevel(weighings([...dirty, ...clean], [4]), BALANCE)?.levelG).toBe(412.3);
  });

  test("is not known from five weighings", () => expect(cleanedLevel(weighings([1, 1, 1, 1, 1]), BALANCE)).toBeNull());

  test("scatters at least as the balance does, which may be known better", () => {
    const still = weighings([412, 412, 412, 412, 412, 412, 412]);
    expect(cleanedLevel(still, BALANCE)?.scatterG).toBe(0.005);
    expect(cleanedLevel(still, { ...BALANCE, repeatabilityG: 0.012 })?.scatterG).toBe(0.012);
  });

  test("survives a slip of the hand", () => {
    const masses = [412.3, 412.3, 421.3, 412.31, 412.3, 412.29, 412.3, 412.3, 412.3, 412.3, 412.3, 412.3];
    const found = cleanedLevel(weighings(masses), BALANCE);
    expect(found?.levelG).toBe(412.3);
    expect(found?.scatterG).toBeLessThan(0.02);
  });
});

test("a change is told from five readabilities on, unless chosen otherwise", () => {
  expect(actionLimitG({ readabilityG: 0.1 })).toBe(0.5);
  expect(actionLimitG({ readabilityG: 0.1, actionG: 0.2 })).toBe(0.2);
});
