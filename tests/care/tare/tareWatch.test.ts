import { describe, expect, test } from "vitest";
import type { TareHistory } from "../../../src/care/tare/history.ts";
import { tareWatch } from "../../../src/care/tare/tareWatch.ts";
import { watchOne } from "../../../src/care/tare/watchOne.ts";
import { chanceFrom } from "../simulation/chance.ts";

const at = (k: number) => new Date(Date.UTC(2026, 0, 1 + k, 8)).toISOString();
const BALANCE = { readabilityG: 0.01 };

/** A sieve whose empty mass follows a course beside a little noise. */
function history(
  serial: string,
  apertureUm: number,
  baseG: number,
  tests: number,
  course: (k: number) => number,
): TareHistory {
  const { normal } = chanceFrom(baseG * 10);
  const weighings = Array.from({ length: tests }, (_, k) => ({
    at: at(k),
    round: `t${k}`,
    emptyG: Math.round((baseG + course(k) + normal(0, 0.008)) * 100) / 100,
  }));
  return { serial, apertureUm, weighings };
}
const one = (course: (k: number) => number, tests = 40) =>
  watchOne(history("S-0250-1", 250, 371.4, tests, course), BALANCE);
const from = (from: number, g: number) => (k: number) => (k >= from ? g : 0);

describe("the empty weighings of one sieve", () => {
  test("that stay are steady and need no advice", () => {
    const found = one(() => 0);
    expect(found).toMatchObject({ state: "steady", since: null, advice: null });
    expect(found.levelG).toBeCloseTo(371.4, 2);
  });

  test("are told from five readabilities on, and from four times their own scatter where that is more", () => {
    const draughty = chanceFrom(5);
    const found = one(() => draughty.normal(0, 0.03), 60);
    expect(found.state).toBe("steady");
    expect(found.toldFromG).toBeGreaterThan(0.09);
    expect(found.toldFromG).toBeLessThan(0.16);
    const still = watchOne(
      history("S-0250-1", 250, 371.4, 40, () => 0),
      { ...BALANCE, actionG: 0.2 },
    );
    expect(still.toldFromG).toBe(0.2);
    expect(one(() => 0).toldFromG).toBe(0.05);
  });

  test("that rise slowly are grains caught: how many g, since when, and clean it", () => {
    const found = one((k) => Math.max(0, k - 20) * 0.02);
    expect(found.state).toBe("caught");
    expect(found.offG).toBeGreaterThan(0.3);
    expect(found.offG).toBeLessThan(0.4);
    expect(found.text).toMatch(/the 250 um sieve \(S-0250-1\) weighs 0.3\d g more than when clean.*since 2026-01-2\d/);
    expect(found.advice).toMatch(/brush or ultrasonic.*weigh it again/);
  });

  test("that come back from a rise are told by the mass in hand: nothing at the clean mass, odd below it", () => {
    const risen = (last: number) => (k: number) => (k === 39 ? last : Math.max(0, k - 20) * 0.02);
    const clean = one(risen(0));
    expect([clean.state, clean.advice]).toEqual(["steady", null]);
    expect(clean.offG).toBeCloseTo(0, 1);
    const other = one(risen(-2.2));
    expect(other).toMatchObject({ state: "odd" });
    expect(other.offG).toBeCloseTo(-2.2, 1);
    expect(other.text).not.toContain("more");
  });

  test("after a cleaning count alone for how far the sieve is off: what was brushed out is gone", () => {
    const risen = history("S-0250-1", 250, 371.4, 40, (k) => (k < 39 ? Math.max(0, k - 20) * 0.02 : 0));
    const weighings = risen.weighings.map((w, k) => (k === 39 ? { ...w, cleaned: true } : w));
    const found = watchOne({ ...risen, weighings }, BALANCE);
    expect(found).toMatchObject({ state: "steady", advice: null });
    expect(Math.abs(found.offG ?? 1)).toBeLessThan(0.05);
  });

  test("that fall slowly are wear", () => {
    const found = one((k) => -0.004 * k);
    expect(found.state).toBe("wearing");
    expect(found.text).toMatch(/less than when clean, slowly fallen/);
    expect(found.advice).toMatch(/inspect/);
  });

  test.each([
    ["step up", 1.4, /in one step: grains caught at once, another sieve/],
    ["step down", -1.4, /in one step: damage, another sieve/],
    ["step down", -0.15, /in one step: damage/],
  ] as const)("in one step are a %s (%d g), since the day of it", (state, g, words) => {
    const found = one(from(32, g));
    expect(found.state).toBe(state);
    expect(found.text).toMatch(words);
    expect(found.since).toBe(at(32));
    expect(found.offG).toBeCloseTo(g, 1);
  });

  test("of which the last alone is off are to be weighed again", () => {
    const found = one(from(39, 0.9));
    expect(found.state).toBe("odd");
    expect(found.text).toMatch(/0.9\d? g more than when clean, this once/);
    expect(found.advice).toMatch(/weigh it again/);
  });

  test("that changed by less than the action limit are left alone", () => {
    expect(one(from(20, 0.03)).state).toBe("steady");
    expect(watchOne(history("S", 250, 371.4, 40, from(20, 0.03)), { ...BALANCE, actionG: 0.02 }).state).toBe("step up");
  });

  test("that rose and came back are steady again", () =>
    expect(one((k) => (k >= 15 && k < 25 ? 0.4 : 0)).state).toBe("steady"));

  test("fewer than twelve say nothing yet", () => {
    const found = one(from(6, 3), 11);
    expect(found).toMatchObject({ state: "learning", levelG: null, advice: null });
    expect(found.text).toMatch(/weighed empty 11 times: too few/);
  });

  test("after a cleaning that helped are steady; after one that did not they are told again", () => {
    const rising = (k: number) => (k < 20 ? 0 : 0.03 * (k - 19));
    const cleanedAt = (g: (k: number) => number) => {
      const made = history("S-0250-1", 250, 371.4, 40, g);
      const marked = made.weighings.map((w, k) => (k === 0 || k === 32 ? { ...w, cleaned: true } : w));
      return watchOne({ ...made, weighings: marked }, BALANCE);
    };
    expect(cleanedAt((k) => (k >= 32 ? 0 : rising(k))).state).toBe("steady");
    expect(["caught", "step up"]).toContain(cleanedAt(rising).state);
  });
});

describe("a stack weighed together", () => {
  const SIEVES = [
    [1000, 402.2],
    [710, 388.9],
    [500, 380.1],
    [355, 371.6],
    [250, 366.3],
  ] as const;
  const stack = (course: (k: number, i: number, baseG: number) => number) =>
    SIEVES.map(([um, baseG], i) => history(`S-${um}`, um, baseG, 40, (k) => course(k, i, baseG)));

  test("with nothing wrong says nothing", () => {
    const watch = tareWatch(
      stack(() => 0),
      BALANCE,
    );
    expect(watch.together).toBeNull();
    expect(watch.sieves.map((s) => s.state)).toEqual(["steady", "steady", "steady", "steady", "steady"]);
  });

  test.each([
    ["the same mass", (k: number) => (k >= 30 ? 0.2 : 0)],
    ["the same part of their mass", (k: number, _: number, baseG: number) => (k >= 30 ? -0.002 * baseG : 0)],
    ["the same mass, bit by bit", (k: number) => Math.max(0, k - 20) * 0.02],
  ])("that moved by %s is the balance, and no sieve", (_, course) => {
    const watch = tareWatch(stack(course), BALANCE);
    expect(watch.together?.cause).toBe("balance");
    expect(watch.together?.text).toMatch(/all empty sieves weigh about .* g (more|less): the balance, not the sieves/);
    expect(watch.together?.advice).toMatch(/check the balance/);
    expect(new Set(watch.sieves.map((s) => s.state))).toEqual(new Set(["steady"]));
  });

  test("on a balance gone wrong still shows the one sieve that was changed as well", () => {
    const watch = tareWatch(
      stack((k, i) => (k >= 30 ? 0.2 + (i === 2 ? -1.1 : 0) : 0)),
      BALANCE,
    );
    expect(watch.together?.cause).toBe("balance");
    expect(watch.sieves.map((s) => s.state)).toEqual(["steady", "steady", "step down", "steady", "steady"]);
    expect(watch.sieves[2]?.offG).toBeCloseTo(-1.1, 1);
  });

  test("whose sieves each moved by their own amount is another stack", () => {
    const watch = tareWatch(
      stack((k, i) => (k >= 30 ? ([2.1, -3.3, 5.2, 1.2, 7.7][i] ?? 0) : 0)),
      BALANCE,
    );
    expect(watch.together?.cause).toBe("stack");
    expect(watch.together?.text).toMatch(/another stack, or sieves changed about/);
    expect(watch.sieves.every((s) => s.state.startsWith("step"))).toBe(true);
  });

  test("of which one sieve blinds is neither balance nor stack", () => {
    const watch = tareWatch(
      stack((k, i) => (i === 4 ? Math.max(0, k - 20) * 0.03 : 0)),
      BALANCE,
    );
    expect(watch.together).toBeNull();
    expect(watch.sieves.map((s) => s.state)).toEqual(["steady", "steady", "steady", "steady", "caught"]);
  });

  test("of three sieves is too few to name the balance: each is told for itself", () => {
    const watch = tareWatch(stack((k) => (k >= 30 ? 0.2 : 0)).slice(0, 3), BALANCE);
    expect(watch.together).toBeNull();
    expect(watch.sieves.map((s) => s.state)).toEqual(["step up", "step up", "step up"]);
  });
});
