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

describe("which doubt is told", () => {
  const doubtOf = (typed: string, setting = SETTING, weighed = 0) =>
    beforeFull(setting).weighs(FULL_G.slice(0, weighed)).enters(typed).run.doubt?.text ?? "";

  test("is the one that says most: a wrong sieve before an unusual fraction", () => {
    const setting = usual(1400, { lowShare: 0.01, highShare: 0.05, emptyG: 412.31 });
    expect(doubtOf("410.31", setting)).toContain("below empty");
  });

  test("is that of the balance before that of the charge", () => {
    expect(doubtOf("3100.01")).toContain("the balance carries 3100 g only");
    expect(doubtOf("3100")).toContain("recovered 2387.49 g more than the charge of 300.2 g");
  });

  test("is that of the charge before that of the same mass again", () => {
    expect(doubtOf(String(FULL_G[4]), SETTING, 5)).toContain("more than the charge");
    const roomy = new Hands().setsOut("600").weighs(EMPTY_G).shakes().weighs(FULL_G.slice(0, 5));
    expect(roomy.enters(String(FULL_G[4])).run.doubt?.text).toContain("the same mass");
  });
});

describe("what is within what can be is not doubted", () => {
  test("a mass at the balance's capacity, or exactly as empty", () => {
    const large = { ...SETTING, balance: { ...SETTING.balance, capacityG: 413 } };
    expect(new Hands(large).setsOut().enters("413").run.doubt).toBeNull();
    expect(beforeFull().enters("412.31").run.doubt).toBeNull();
  });

  test("an empty sieve within half a gram of last time, or within 0.2 % of a heavy one", () => {
    const light = usual(1400, { lowShare: 0, highShare: 1, emptyG: 100 });
    expect(new Hands(light).setsOut().enters("100.5").run.doubt).toBeNull();
    expect(new Hands(light).setsOut().enters("100.51").run.doubt?.text).toContain("100 g empty last time");
    const heavy = usual(1400, { lowShare: 0, highShare: 1, emptyG: 1000 });
    expect(new Hands(heavy).setsOut().enters("1001.99").run.doubt).toBeNull();
    expect(new Hands(heavy).setsOut().enters("997.9").run.doubt).not.toBeNull();
  });

  test("a gain that the balance's last digit can make over all rows", () => {
    const full = beforeFull().weighs(FULL_G.slice(0, 5));
    const justOver = (grams: number) => Math.round(((FULL_G[5] ?? 0) + 0.3 + grams) * 100) / 100;
    expect(full.enters(String(justOver(0.07))).run.doubt).toBeNull();
    const more = beforeFull()
      .weighs(FULL_G.slice(0, 5))
      .enters(String(justOver(0.08)));
    expect(more.run.doubt?.text).toContain("recovered 0.08 g more than the charge");
  });

  test("a fraction at the edge of what is usual", () => {
    const setting = usual(1400, { lowShare: 0, highShare: 5.71 / 300.2, emptyG: 412.31 });
    expect(beforeFull(setting).enters("418.02").run.doubt).toBeNull();
    expect(beforeFull(setting).enters("418.03").run.doubt).not.toBeNull();
  });

  test("any fraction where the charge was not weighed or nothing is usual", () => {
    const setting = usual(1400, { lowShare: 0, highShare: 0.0001, emptyG: 412.31 });
    const uncharged = new Hands(setting).enter(5).weighs(EMPTY_G).shakes().enters("500");
    expect(uncharged.run.doubt).toBeNull();
    expect(beforeFull(usual(999, { lowShare: 0, highShare: 0, emptyG: 0 })).enters("500").run.doubt).toBeNull();
  });

  test("the same mass where another entry came between", () => {
    const hands = new Hands().setsOut().weighs([412.31]).does({ type: "rowDown" }).weighs([366.95]);
    expect(hands.enters("412.31").run.doubt).toBeNull();
  });
});
