import fc from "fast-check";
import { expect, test } from "vitest";
import type { TestRecord } from "../../src/record/test.ts";
import { usualOf } from "../../src/run/usual.ts";
import { EMPTY_G, FULL_G, Hands } from "./hands.ts";

function recorded(fullOffsetG = 0): TestRecord {
  const { schema: _schema, stage: _stage, ...entered } = new Hands().tests().run.draft;
  const weighings = entered.weighings.map((w, i) => ({ ...w, fullG: (FULL_G[i] ?? 0) + (i === 0 ? fullOffsetG : 0) }));
  const signed = { program: "0", test: "valid", product: "pass", lossPct: 0.1 } as const;
  return { ...entered, weighings, finishedAt: entered.startedAt, by: "KO", signed };
}

test("fewer than four tests say nothing about what is usual", () => {
  expect(usualOf([recorded(), recorded(), recorded()]).size).toBe(0);
  expect(usualOf([]).size).toBe(0);
});

test("the range seen, as a share of the charge, widened by half of itself and half a percent each way", () => {
  const sieve = usualOf([recorded(), recorded(3), recorded(1), recorded(2)]).get(1400);
  const lowest = 5.71 / 300.2;
  const highest = 8.71 / 300.2;
  const slack = 0.5 * (highest - lowest) + 0.005;
  expect(sieve?.lowShare).toBeCloseTo(Math.max(0, lowest - slack), 10);
  expect(sieve?.highShare).toBeCloseTo(highest + slack, 10);
});

test("the empty mass is that of the newest test", () => {
  const newest = recorded();
  const older = {
    ...recorded(),
    weighings: recorded().weighings.map((w) => ({ ...w, emptyG: (w.emptyG ?? 0) - 1, fullG: (w.fullG ?? 0) - 1 })),
  };
  expect(usualOf([newest, older, older, older]).get(1400)?.emptyG).toBe(EMPTY_G[0]);
});

test("every sieve and the pan have their own", () => {
  expect([...usualOf([recorded(), recorded(), recorded(), recorded()]).keys()]).toEqual([1400, 1000, 710, 500, 355, 0]);
});

test("without a charge the share is of what was recovered", () => {
  const uncharged = Array.from({ length: 4 }, () => ({ ...recorded(), chargeG: null }));
  const sieve = usualOf(uncharged).get(710);
  expect(sieve?.lowShare).toBeCloseTo(112.3 / 299.9 - 0.005, 10);
  expect(sieve?.highShare).toBeCloseTo(112.3 / 299.9 + 0.005, 10);
});

test("a sieve in portions counts with all that it held", () => {
  const inTwo = Array.from({ length: 4 }, () => ({
    ...recorded(),
    chargeG: 600.4,
    weighings: recorded().weighings.map((w) => ({ ...w, earlierFullG: [w.fullG ?? 0] })),
  }));
  expect(usualOf(inTwo).get(710)?.highShare).toBeCloseTo(112.3 / 300.2 + 0.005, 10);
});

test("a sieve that only some of the tests had needs four of its own", () => {
  const short = { ...recorded(), weighings: recorded().weighings.filter((w) => w.apertureUm !== 355) };
  const usual = usualOf([recorded(), recorded(), recorded(), short]);
  expect(usual.has(355)).toBe(false);
  expect(usual.has(500)).toBe(true);
});

test("whatever the tests were: a range within nothing and everything that holds every share seen", () => {
  const offsets = fc.array(
    fc.integer({ min: 0, max: 28_000 }).map((n) => n / 100),
    { minLength: 4, maxLength: 12 },
  );
  fc.assert(
    fc.property(offsets, (gainsG) => {
      const sieve = usualOf(gainsG.map(recorded)).get(1400);
      expect(sieve && sieve.lowShare >= 0 && sieve.highShare <= 1).toBe(true);
      for (const gainG of gainsG) {
        const share = (5.71 + gainG) / 300.2;
        expect(share).toBeGreaterThanOrEqual(sieve?.lowShare ?? 1);
        expect(share).toBeLessThanOrEqual(sieve?.highShare ?? 0);
      }
    }),
  );
});
