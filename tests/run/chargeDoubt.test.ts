import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Method } from "../../src/record/product.ts";
import { chargeDoubt } from "../../src/run/chargeDoubt.ts";
import { NOTHING_USUAL, type Usual } from "../../src/run/usual.ts";
import { FILTER_SAND, Hands, SETTING } from "./hands.ts";

const productWith = (method: Method) => ({ ...FILTER_SAND, method });
const doubtAt = (grams: number, method: Method, usual: Usual = NOTHING_USUAL) =>
  chargeDoubt(new Hands(SETTING, productWith(method)).run.draft, grams, usual);

const OWN_RANGE: Method = { chargeG: { min: 250, max: 350 } };
/** 7 kg/m2 on a frame of 203 mm allow 199.5 g below 4.75 mm. */
const FRAMED: Method = { procedure: { ruleSet: "astm-c136-2020", frameMm: 203 } };
/** Every sieve and the pan usually hold these shares of the charge. */
const usualShares = (shares: readonly number[]): Usual =>
  new Map(
    [1400, 1000, 710, 500, 355, 0].map((um, i) => [
      um,
      { lowShare: (shares[i] ?? 0) - 0.01, highShare: (shares[i] ?? 0) + 0.01, emptyG: 400 },
    ]),
  );

describe("a charge against the product's own range", () => {
  test.each([250, 300, 350])("of %d g is in it, both ends included: no doubt", (grams) => {
    expect(doubtAt(grams, OWN_RANGE)).toBeNull();
  });

  test("too small says how much is wanted, and whose figure that is", () => {
    expect(doubtAt(249.99, OWN_RANGE)).toBe("249.99 g is too little: at least 250 g (the product)");
  });

  test("too large says how often the riffle splits it, and what is left", () => {
    expect(doubtAt(600, OWN_RANGE)).toBe(
      "600 g is more than the 350 g allowed (the product): split it once (keep one half each time) for about 300 g",
    );
    expect(doubtAt(1200, OWN_RANGE)).toContain("split it 2 times (keep one half each time) for about 300 g");
  });

  test("that no halving brings into the range is split into parts, some of which are put together again", () => {
    expect(doubtAt(400, OWN_RANGE)).toContain("split it 2 times (keep 3 of the 4 parts) for about 300 g");
  });

  test("too large by an odd figure is told no finer than a riffle splits", () => {
    expect(doubtAt(600.37, OWN_RANGE)).toContain("for about 300 g");
  });

  test("that no split brings into the range is doubted without that advice", () => {
    expect(doubtAt(400, { chargeG: { min: 340, max: 345 } })).toBe(
      "400 g is more than the 345 g allowed (the product)",
    );
  });

  test("with only a largest mass is split to no less than half of that", () => {
    expect(doubtAt(1000, { chargeG: { max: 350 } })).toContain(
      "split it 2 times (keep one half each time) for about 250 g",
    );
  });
});

describe("a charge against the sieves", () => {
  test("that could overload one, for all that is known, is doubted", () => {
    expect(doubtAt(199, FRAMED)).toBeNull();
    expect(doubtAt(200, FRAMED)).toMatch(
      /^200 g is more than the 199\.5\d* g allowed \(ASTM C136\/C136M-19, clause 8\)/,
    );
  });

  test("is allowed more once it is known how the product spreads over the sieves", () => {
    const usual = usualShares([0.02, 0.19, 0.37, 0.31, 0.1, 0.01]);
    expect(doubtAt(500, FRAMED, usual)).toBeNull();
    expect(doubtAt(600, FRAMED, usual)).toContain("600 g is more than the 539");
  });

  test("that must be larger than the sieves can carry goes on in portions", () => {
    const both: Method = { chargeG: { min: 300 }, ...FRAMED };
    expect(doubtAt(310, both)).toMatch(
      /is more than the 199\.5\d* g allowed .*: sieve it in portions, a on the result adds one$/,
    );
    expect(doubtAt(290, both)).toContain("too little: at least 300 g");
  });

  test("without a frame nothing can be said of the sieves", () => {
    expect(doubtAt(5000, { procedure: { ruleSet: "astm-c136-2020" } })).toBeNull();
  });

  test("is too small for the largest particle by the method's table, named with its standing", () => {
    const method: Method = { procedure: { ruleSet: "astm-c136-2020", charge: { largestParticleMm: 4.75 } } };
    expect(doubtAt(299, method)).toBe(
      "299 g is too little: at least 300 g (ASTM C136/C136M, table of minimum test samples (recalled: check your copy))",
    );
    expect(doubtAt(300, method)).toBeNull();
  });
});

test("without any rule no charge is doubted, whatever it is", () => {
  fc.assert(
    fc.property(fc.double({ min: 0.01, max: 1e6, noNaN: true }), (grams) => {
      expect(doubtAt(grams, {})).toBeNull();
    }),
  );
});

test("what the riffle is said to leave lies in the range again", () => {
  fc.assert(
    fc.property(fc.integer({ min: 35_001, max: 300_000 }), (hundredths) => {
      const left = /for about ([\d.]+) g$/.exec(doubtAt(hundredths / 100, OWN_RANGE) ?? "");
      expect(left && doubtAt(Number(left[1]), OWN_RANGE)).toBeNull();
      expect(left).not.toBeNull();
    }),
  );
});

describe("on the set-out page", () => {
  const setOut = () => new Hands(SETTING, productWith(OWN_RANGE)).enter(4);

  test("a doubted charge is not accepted on the first Enter, and is on the second, with the warning on the trail", () => {
    const hands = setOut().enters("400");
    expect(hands.run.draft.chargeG).toBeNull();
    expect(hands.run.doubt?.text).toContain("more than the 350 g allowed");
    hands.enter();
    expect(hands.run.draft).toMatchObject({ chargeG: 400, stage: "weigh empty" });
    expect(hands.run.draft.trail.at(-1)).toMatchObject({ field: "chargeG", to: 400 });
    expect(hands.run.draft.trail.at(-1)?.warned).toContain("more than the 350 g allowed");
  });

  test("another mass typed instead is looked at afresh, and a fair one leaves no warning", () => {
    const hands = setOut().enters("400").enters("200");
    expect(hands.run.doubt?.text).toContain("too little");
    hands.enters("300");
    expect(hands.run.draft.chargeG).toBe(300);
    expect(hands.run.draft.trail.at(-1)).not.toHaveProperty("warned");
  });

  test("what can't be a charge at all is refused, not doubted", () => {
    expect(setOut().enters("0").run).toMatchObject({ doubt: null, message: "a charge is more than 0 g" });
    expect(setOut().enters("4000").enter().run.message).toBe("the balance carries 3100 g only");
  });
});
