import { describe, expect, test } from "vitest";
import type { UsualSieve } from "../../src/run/usual.ts";
import { EMPTY_G, FULL_G, Hands, SETTING } from "./hands.ts";

const usual = (um: number, sieve: UsualSieve) => ({ ...SETTING, usual: new Map([[um, sieve]]) });
const beforeFull = (setting = SETTING) => new Hands(setting).setsOut().weighs(EMPTY_G).shakes();

describe("a mass that can't be right is doubted at once", () => {
  test("full below empty", () => {
    const { run } = beforeFull().enters("410.31");
    expect(run.doubt?.text).toContain("2 g below empty");
    expect(run.draft.weighings[0]?.fullG).toBeNull();
  });

  test("the same mass as the one before", () => {
    const { run } = new Hands().setsOut().weighs([412.31]).enters("412.31");
    expect(run.doubt?.text).toContain("the same mass");
  });

  test("more than the balance can carry", () => {
    expect(new Hands().setsOut().enters("3100.5").run.doubt?.text).toContain("carries 3100 g");
  });

  test("more recovered than was put on", () => {
    const { run } = beforeFull().weighs(FULL_G.slice(0, 5)).enters("364.10");
    expect(run.doubt?.text).toContain("more than the charge");
  });

  test("an empty sieve that is not what it was", () => {
    const setting = usual(1400, { lowShare: 0, highShare: 1, emptyG: 412.3 });
    expect(new Hands(setting).setsOut().enters("413.40").run.doubt?.text).toContain("412.3 g empty last time");
    expect(new Hands(setting).setsOut().enters("412.40").run.doubt).toBeNull();
  });

  test("a fraction far from what this product usually leaves on that sieve", () => {
    const setting = usual(1400, { lowShare: 0.01, highShare: 0.05, emptyG: 412.31 });
    expect(beforeFull(setting).enters("462.31").run.doubt?.text).toContain(
      "50 g net: usual for this product is 3 g to 15 g",
    );
    expect(beforeFull(setting).enters("420.31").run.doubt).toBeNull();
  });
});

describe("a doubted mass", () => {
  test("is accepted by a second Enter, and the trail keeps the warning", () => {
    const { run } = beforeFull().enters("410.31").enter();
    expect(run.draft.weighings[0]?.fullG).toBe(410.31);
    expect(run.draft.trail.at(-1)?.warned).toContain("below empty");
    expect(run.at).toBe(1);
  });

  test("is replaced by typing another one, which is not accepted unasked", () => {
    const { run } = beforeFull().enters("410.31").types("418.02");
    expect(run.typed).toBe("418.02");
    expect(run.doubt).toBeNull();
  });

  test("another doubtful mass is doubted anew", () => {
    const { run } = beforeFull().enters("410.31").enters("409.31");
    expect(run.doubt?.text).toContain("3 g below empty");
    expect(run.draft.weighings[0]?.fullG).toBeNull();
  });
});

test("weighing the same value again on its own row is no new mass and is not doubted", () => {
  const hands = new Hands().setsOut().weighs(EMPTY_G.slice(0, 1)).does({ type: "rowUp" });
  expect(hands.enters("412.31").run.doubt).toBeNull();
});
