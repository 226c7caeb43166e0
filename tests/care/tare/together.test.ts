import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { TareHistory } from "../../../src/care/tare/history.ts";
import { tareWatch } from "../../../src/care/tare/tareWatch.ts";
import { commonMove, commonOf, expectedG, roundsOf } from "../../../src/care/tare/together.ts";
import { chanceFrom } from "../simulation/chance.ts";
import { healthy, READABILITY_G, upTo, weighedEmpty } from "../simulation/tares.ts";

const BALANCE = { readabilityG: READABILITY_G };
const stack = (tests: number, seed = 5, fault: Parameters<typeof weighedEmpty>[3] = null) =>
  weighedEmpty(healthy(), tests, chanceFrom(seed), fault);

describe("what is common to some moves", () => {
  const offs = [
    { offG: 0.2, massG: 400 },
    { offG: 0.1, massG: 200 },
    { offG: 5, massG: 100 },
  ];

  test("is a mass or a part of the mass, and one wild sieve does not make it", () => {
    expect(commonOf(offs, "mass")).toBe(0.2);
    expect(commonOf(offs, "part")).toBeCloseTo(0.0005, 12);
  });

  test("is expected of every sieve, in g", () => {
    expect(expectedG(0.2, 400, "mass")).toBe(0.2);
    expect(expectedG(0.0005, 400, "part")).toBeCloseTo(0.2, 12);
  });
});

describe("rounds", () => {
  test("hold every sieve of a test, off its own level, in order of time", () => {
    const rounds = roundsOf(stack(20), BALANCE);
    expect(rounds).toHaveLength(20);
    expect(rounds.map((r) => r.offs.size)).toEqual(Array.from({ length: 20 }, () => 7));
    expect(rounds.map((r) => r.at)).toEqual(rounds.map((r) => r.at).toSorted());
    for (const round of rounds) expect(Math.abs(round.commonG)).toBeLessThan(0.05);
  });

  test("of fewer than four sieves are none", () => expect(roundsOf(stack(20).slice(0, 3), BALANCE)).toEqual([]));

  test("of sieves whose level is not known yet are none", () => expect(roundsOf(stack(5), BALANCE)).toEqual([]));
});

describe("a common move", () => {
  test("is not told before there are twelve tests", () => {
    const wrong = stack(11, 5, { from: 6, addsG: 3 });
    expect(commonMove(wrong, BALANCE)).toBeNull();
  });

  test("is told with the day it began, whether a mass or a part of it", () => {
    const added = commonMove(stack(40, 5, { from: 30, addsG: 0.3 }), BALANCE);
    expect(added).toMatchObject({ cause: "balance", course: "mass", since: stack(40)[0]?.weighings[30]?.at });
    expect(added?.offG).toBeCloseTo(0.3, 1);
    const part = commonMove(stack(40, 5, { from: 30, addsPart: 0.003 }), BALANCE);
    expect(part).toMatchObject({ cause: "balance", course: "part" });
  });

  test("is over when the balance is right again", () => {
    const right = stack(60);
    const wrong = stack(60, 5, { from: 0, addsG: 0.5 });
    const mended = right.map((history, i) => ({
      ...history,
      weighings: history.weighings.map((w, k) => (k >= 20 && k < 30 ? (wrong[i]?.weighings[k] ?? w) : w)),
    }));
    expect(commonMove(upTo(mended, 30), BALANCE)?.cause).toBe("balance");
    expect(commonMove(mended, BALANCE)).toBeNull();
  });
});

describe("the watch as a whole", () => {
  const shiftedBy = (g: number) => (history: TareHistory) => ({
    ...history,
    weighings: history.weighings.map((w) => ({ ...w, emptyG: w.emptyG + g })),
  });
  const seeds = fc.integer({ min: 1, max: 1e6 });
  const statesOf = (histories: readonly TareHistory[]) => tareWatch(histories, BALANCE).sieves.map((s) => s.state);

  test("does not depend on what the sieves weigh, nor on the order of the weighings", () =>
    fc.assert(
      fc.property(seeds, fc.double({ min: -100, max: 500, noNaN: true }), (seed, g) => {
        const histories = stack(30, seed);
        expect(statesOf(histories.map(shiftedBy(g)))).toEqual(statesOf(histories));
        const backward = histories.map((h) => ({ ...h, weighings: h.weighings.toReversed() }));
        expect(tareWatch(backward, BALANCE)).toEqual(tareWatch(histories, BALANCE));
      }),
      { numRuns: 25 },
    ));

  test("a step of a gram at any test from the 15th to the third last is told as a step, and its day is right", () =>
    fc.assert(
      fc.property(seeds, fc.integer({ min: 15, max: 37 }), fc.constantFrom(-1, 1), (seed, from, g) => {
        const fates = healthy().map((f) => (f.apertureUm === 355 ? { ...f, steps: { from, byG: g } } : f));
        const histories = weighedEmpty(fates, 40, chanceFrom(seed));
        const clean = histories.every((h) =>
          h.weighings.every((w) => Math.abs(w.emptyG - (h.weighings[0]?.emptyG ?? 0)) < 1.2),
        );
        fc.pre(clean);
        const found = tareWatch(histories, BALANCE).sieves.find((s) => s.apertureUm === 355);
        expect(found?.state).toBe(g > 0 ? "step up" : "step down");
        expect(found?.since).toBe(histories[0]?.weighings[from]?.at);
        expect(found?.offG).toBeCloseTo(g, 1);
      }),
      { numRuns: 25, seed: 11 },
    ));

  test("no weighings at all are learning, not a fault", () => {
    const empty = { serial: "S", apertureUm: 500, weighings: [] };
    expect(tareWatch([empty], BALANCE)).toMatchObject({ together: null, sieves: [{ state: "learning" }] });
    expect(tareWatch([], BALANCE)).toEqual({ together: null, sieves: [] });
  });
});
