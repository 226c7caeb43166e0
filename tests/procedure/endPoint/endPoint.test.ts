import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { endPointOf, passedThroughStackG } from "../../../src/procedure/endPoint/endPoint.ts";
import type { EndPointReading } from "../../../src/record/checks.ts";
import type { EndPointCriterion } from "../../../src/record/procedure.ts";

const ofCharge = (limitPct: number, more: Partial<EndPointCriterion> = {}): EndPointCriterion => ({
  of: "charge",
  limitPct,
  periodS: 60,
  sieves: "every",
  ...more,
});
const ofResidue = (limitPct: number, more: Partial<EndPointCriterion> = {}): EndPointCriterion => ({
  ...ofCharge(limitPct, more),
  of: "residue",
});

const LOADED = [
  { apertureUm: 1000, netG: 60 },
  { apertureUm: 500, netG: 200 },
  { apertureUm: 250, netG: 0 },
  { apertureUm: 63, netG: 15 },
  { apertureUm: 0, netG: 25 },
];
const CHARGE_G = 300;
const reading = (apertureUm: number, beforeG: number, afterG: number): EndPointReading => ({
  apertureUm,
  beforeG,
  afterG,
});
const complete = [reading(1000, 60, 59.9), reading(500, 200, 199.2), reading(63, 15, 14.95)];

describe("the end point by share of the charge", () => {
  test("is reached when no sieve lets more through", () => {
    const result = endPointOf(ofCharge(0.5), complete, LOADED, CHARGE_G);
    expect(result.state).toBe("reached");
    expect(result.missingUm).toEqual([]);
    expect(result.sieves.map((s) => s.apertureUm)).toEqual([1000, 500, 63]);
    expect(result.sieves[1]!.passedG).toBeCloseTo(0.8, 9);
    expect(result.sieves[1]!.passedPct).toBeCloseTo(0.2667, 4);
  });

  test("is not reached when one sieve lets more through", () => {
    const result = endPointOf(ofCharge(0.2), complete, LOADED, CHARGE_G);
    expect(result.state).toBe("not reached");
    expect(result.sieves.filter((s) => s.reached === false).map((s) => s.apertureUm)).toEqual([500]);
  });

  test("allows the limit itself, unless the method says below", () => {
    const exactly = [reading(1000, 60, 58.5)];
    const anyOne = { sieves: "any" } as const;
    expect(endPointOf(ofCharge(0.5, anyOne), exactly, LOADED, CHARGE_G).state).toBe("reached");
    expect(endPointOf(ofCharge(0.5, { ...anyOne, below: true }), exactly, LOADED, CHARGE_G).state).toBe("not reached");
  });

  test("can't be told without a charge", () => {
    const result = endPointOf(ofCharge(0.5), complete, LOADED, null);
    expect(result.state).toBe("not checked");
    expect(result.sieves[0]).toMatchObject({ passedPct: null, reached: null });
    expect(result.sieves[0]!.reason).toBe("without a charge nothing can be said of the 1.00 mm sieve");
  });
});

describe("the end point by share of the residue", () => {
  test("counts what passed against what the sieve held before", () => {
    const result = endPointOf(ofResidue(1), [reading(63, 15, 14.9)], LOADED, CHARGE_G);
    expect(result.sieves[0]!.passedPct).toBeCloseTo(0.6667, 4);
  });

  test("needs no charge", () => {
    expect(endPointOf(ofResidue(1), complete, LOADED, null).state).toBe("reached");
  });

  test("is a stricter test than the charge on a sieve that holds little", () => {
    const readings = [reading(63, 15, 14)];
    const one = { sieves: "any" } as const;
    expect(endPointOf(ofCharge(0.5, one), readings, LOADED, CHARGE_G).state).toBe("reached");
    expect(endPointOf(ofResidue(1, one), readings, LOADED, CHARGE_G).state).toBe("not reached");
  });
});

describe("which sieves need the check", () => {
  test("every loaded one: what is missing is named, and the state is not checked", () => {
    const result = endPointOf(ofCharge(0.5), complete.slice(1), LOADED, CHARGE_G);
    expect(result).toMatchObject({ state: "not checked", missingUm: [1000] });
  });

  test("a failed sieve decides even where others are missing", () => {
    const result = endPointOf(ofCharge(0.1), [reading(500, 200, 199)], LOADED, CHARGE_G);
    expect(result).toMatchObject({ state: "not reached", missingUm: [1000, 63] });
  });

  test("an empty sieve and the pan need none", () => {
    expect(endPointOf(ofCharge(0.5), [], LOADED, CHARGE_G).missingUm).toEqual([1000, 500, 63]);
  });

  test("only the finest loaded one, for a method that says so", () => {
    const finest = ofCharge(0.2, { sieves: "finest loaded" });
    expect(endPointOf(finest, [], LOADED, CHARGE_G).missingUm).toEqual([63]);
    expect(endPointOf(finest, [reading(63, 15, 14.95)], LOADED, CHARGE_G).state).toBe("reached");
    expect(endPointOf(finest, [reading(1000, 60, 59.9)], LOADED, CHARGE_G).state).toBe("not checked");
  });

  test("any one, where the product says so", () => {
    const anyOne = ofCharge(0.5, { sieves: "any" });
    expect(endPointOf(anyOne, [complete[0]!], LOADED, CHARGE_G).state).toBe("reached");
    expect(endPointOf(anyOne, [], LOADED, CHARGE_G).state).toBe("not checked");
  });

  test("none made is not checked, whatever the rule", () =>
    fc.assert(
      fc.property(
        fc.constantFrom("every", "finest loaded", "any"),
        fc.constantFrom(ofCharge(0.5), ofResidue(1)),
        (sieves, criterion) => {
          expect(endPointOf({ ...criterion, sieves }, [], LOADED, CHARGE_G).state).toBe("not checked");
        },
      ),
    ));
});

describe("what passed", () => {
  const passedG = (r: EndPointReading) => endPointOf(ofCharge(5), [r], LOADED, CHARGE_G).sieves[0]!.passedG;

  test("is weighed, or before less after; of both the larger counts", () => {
    expect(passedG({ apertureUm: 500, beforeG: 200, passedG: 0.7 })).toBe(0.7);
    expect(passedG({ apertureUm: 500, beforeG: 200, afterG: 199.2 })).toBeCloseTo(0.8, 9);
    expect(passedG({ apertureUm: 500, beforeG: 200, afterG: 199.2, passedG: 0.7 })).toBeCloseTo(0.8, 9);
    expect(passedG({ apertureUm: 500, beforeG: 200, afterG: 199.5, passedG: 0.7 })).toBe(0.7);
  });

  test("is nothing for a sieve that seems to have gained", () =>
    expect(passedG({ apertureUm: 500, beforeG: 200, afterG: 200.1 })).toBe(0));
});

describe("exceptions of a method", () => {
  const pharmacy = ofResidue(5, { periodS: 300, orG: 0.1, small: { belowPct: 5, limitPct: 20 } });
  const state = (r: EndPointReading) => endPointOf({ ...pharmacy, sieves: "any" }, [r], LOADED, 50).state;

  test("a small mass is enough by itself", () => {
    expect(state(reading(500, 1.9, 1.8))).toBe("reached");
    expect(state(reading(500, 3, 2.8))).toBe("not reached");
  });

  test("a residue below 5 % of the charge has the wider limit of 20 %", () => {
    expect(state(reading(500, 2.4, 2.0))).toBe("reached");
    expect(state(reading(500, 2.4, 1.9))).toBe("not reached");
    expect(state(reading(500, 2.5, 2.1))).toBe("not reached");
    expect(endPointOf(pharmacy, [reading(500, 2.4, 2.0)], LOADED, 50).sieves[0]!.limitPct).toBe(20);
  });
});

describe("a check with the whole stack", () => {
  test("adds up what each sieve lost and what fell onto it", () => {
    const stack = [
      { beforeG: 60, afterG: 59.8 },
      { beforeG: 200, afterG: 199.9 },
      { beforeG: 15, afterG: 15.2 },
    ];
    expect(passedThroughStackG(stack).map((g) => Number(g.toFixed(6)))).toEqual([0.2, 0.3, 0.1]);
  });

  test("never shows a gain as passing", () =>
    expect(passedThroughStackG([{ beforeG: 60, afterG: 60.1 }])).toEqual([0]));

  test("is at most all that the stack lost to the pan and all that the coarser sieves lost", () =>
    fc.assert(
      fc.property(
        fc.array(fc.record({ beforeG: fc.integer({ min: 10, max: 500 }), lostG: fc.integer({ min: 0, max: 10 }) })),
        (sieves) => {
          const passed = passedThroughStackG(sieves.map((s) => ({ beforeG: s.beforeG, afterG: s.beforeG - s.lostG })));
          const total = sieves.reduce((sum, s) => sum + s.lostG, 0);
          expect(passed).toEqual(passed.toSorted((a, b) => a - b));
          expect(passed.at(-1) ?? 0).toBe(sieves.length === 0 ? 0 : total);
        },
      ),
    ));
});

describe("a wider limit", () => {
  test("never turns a reached end point into one not reached", () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 5, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        fc.constantFrom("charge", "residue"),
        fc.double({ min: 0, max: 15, noNaN: true }),
        (limitPct, more, of, lostG) => {
          const readings = [reading(500, 200, 200 - lostG)];
          const state = (pct: number) =>
            endPointOf({ of, limitPct: pct, periodS: 60, sieves: "any" }, readings, LOADED, CHARGE_G).state;
          if (state(limitPct) === "reached") expect(state(limitPct + more)).toBe("reached");
        },
      ),
    ));
});
