import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { gapExplanations, lossCheck } from "../../../src/procedure/verdict/lossCheck.ts";
import { factsOf, rulesOf, WEIGHINGS, withFull } from "./testRun.ts";

const THREE_TENTHS = rulesOf({ maxLossPct: 0.3 });

describe("the loss check", () => {
  test("is met within the limit, and tells the figures", () =>
    expect(lossCheck(factsOf(), THREE_TENTHS)).toEqual({
      check: "loss",
      state: "met",
      required: true,
      text: "loss 0.290 g (0.10 %), limit 0.3 %",
      notices: [],
    }));

  test("is not asked without a limit", () =>
    expect(lossCheck(factsOf(), rulesOf({}))).toMatchObject({ state: "not asked", notices: [] }));

  test("is not done for a rule set that has no limit, where the product sets none either", () => {
    const check = lossCheck(factsOf(), rulesOf({}, { ruleSet: "iso-2591-1-1988" }));
    expect(check).toMatchObject({ state: "not done", required: true });
    expect(check.notices[0]).toMatchObject({
      id: "loss-unlimited",
      severity: "warning",
      text: "ISO 2591-1 has no limit of loss here, nor has the product",
      remedy: "set maxLossPct in the product's method",
    });
    expect(lossCheck(factsOf(), rulesOf({ maxLossPct: 1 }, { ruleSet: "iso-2591-1-1988" })).state).toBe("met");
  });

  test("is not done without a charge, and says what to do", () => {
    const check = lossCheck(factsOf({ chargeG: null }), THREE_TENTHS);
    expect(check).toMatchObject({ state: "not done", required: true });
    expect(check.notices).toEqual([
      {
        id: "loss-unknown",
        severity: "warning",
        text: "the charge was not weighed, so no loss can be told",
        found: null,
        limit: null,
        rule: "loss or gain at most 0.3 %",
        source: "the product",
        remedy: "next time weigh the charge before it goes on the stack",
      },
    ]);
  });

  test("is not done where the pan is only what the charge leaves over", () => {
    const check = lossCheck(factsOf({}, { panAssumed: true }), THREE_TENTHS);
    expect(check).toMatchObject({ state: "not done", text: "the pan was not weighed, so no loss can be told" });
    expect(check.notices[0]).toMatchObject({ remedy: "weigh the pan" });
  });

  test("invalidates a loss beyond the limit", () => {
    const [notice] = lossCheck(factsOf({ chargeG: 302.4 }), THREE_TENTHS).notices;
    expect(notice).toMatchObject({
      id: "loss-high",
      severity: "invalidates",
      text: "loss 2.49 g (0.82 %) is above the limit of 0.3 %",
      found: "0.82 %",
      limit: "0.3 %",
      source: "the product",
    });
    expect(notice?.remedy).toContain("brush out every sieve and the pan");
  });

  test("invalidates a gain as well", () => {
    const [notice] = lossCheck(factsOf({ chargeG: 298 }), THREE_TENTHS).notices;
    expect(notice).toMatchObject({
      id: "gain-high",
      severity: "invalidates",
      text: "gain 1.91 g (0.64 %) is above the limit of 0.3 %",
    });
    expect(notice?.remedy).toContain("clean and empty");
  });

  test("names the weighing that one slip would explain", () => {
    const facts = factsOf({ weighings: withFull(710, 419.73) });
    expect(lossCheck(facts, THREE_TENTHS).notices[0]?.remedy).toMatch(
      /^look first for two digits swapped: the 710 um sieve full, 491.73 g instead of 419.73 g; brush/,
    );
  });

  test("names three at most that are as likely as the first", () => {
    const facts = factsOf({ weighings: withFull(500, 547.36) });
    expect(lossCheck(facts, THREE_TENTHS).notices[0]?.remedy).toMatch(
      /^look first for one digit wrong: the charge, 400.2 g instead of 300.2 g, or the \S+ \S+ sieve .+, or the \S+ \S+ sieve .+; weigh each/,
    );
  });

  test("names the charge, or the dry mass after washing, where that is the slip", () => {
    // 302.00 typed for 300.20: no sieve's weighing becomes right by one swap as well.
    const unwashed = lossCheck(factsOf({ chargeG: 302.0 }), THREE_TENTHS).notices[0]?.remedy;
    expect(unwashed).toMatch(/^look first for two digits swapped: the charge, 300.2 g instead of 302 g/);
    const washed = lossCheck(factsOf({ chargeG: 310, washedG: 302.0 }), THREE_TENTHS).notices[0]?.remedy;
    expect(washed).toMatch(/^look first for two digits swapped: the dry mass after washing, 300.2 g instead of 302 g/);
  });

  test("says no more than the remedy where no single slip explains it", () => {
    const nothing = factsOf({ chargeG: 412.77 });
    const remedy = lossCheck(nothing, rulesOf({ maxLossPct: 0.0001 })).notices[0]?.remedy;
    expect(remedy).toMatch(/^brush out/);
  });

  test("sends to the sieve whose empty mass strays from what it usually is", () => {
    const usualEmptyG = new Map(WEIGHINGS.map(([um, emptyG]) => [um, um === 710 ? emptyG - 1.2 : emptyG + 0.3]));
    const remedy = lossCheck(factsOf({ chargeG: 301.55 }, { usualEmptyG }), THREE_TENTHS).notices[0]?.remedy;
    expect(remedy).toContain("brush the 710 um sieve and weigh it empty again: it was 1.20 g heavier than usual; ");
    const lighter = new Map([[500, 368.0]]);
    const other = lossCheck(factsOf({ chargeG: 301.55 }, { usualEmptyG: lighter }), THREE_TENTHS).notices[0]?.remedy;
    expect(other).toContain("brush the 500 um sieve and weigh it empty again: it was 1.05 g lighter than usual; ");
  });

  test("sends to no sieve whose empty mass is as usual to half a gram", () => {
    const usualEmptyG = new Map(WEIGHINGS.map(([um, emptyG]) => [um, emptyG + 0.5]));
    const remedy = lossCheck(factsOf({ chargeG: 301.55 }, { usualEmptyG }), THREE_TENTHS).notices[0]?.remedy;
    expect(remedy).not.toContain("than usual");
  });

  test("of a washed test is against the dry mass after washing", () => {
    const washed = lossCheck(factsOf({ chargeG: 320, washedG: 300.2 }), THREE_TENTHS);
    expect(washed).toMatchObject({ state: "met", text: "loss 0.290 g (0.10 %), limit 0.3 %" });
  });

  test("shows enough decimals to tell a loss just beyond the limit from it", () => {
    const just = lossCheck(factsOf({ chargeG: 300.83 }), rulesOf({ maxLossPct: 0.305 })).notices[0];
    expect(just?.text).toBe("loss 0.920 g (0.306 %) is above the limit of 0.305 %");
  });

  test("takes the limit of the rule set where the product sets none, and cites it", () => {
    const rules = rulesOf({}, { ruleSet: "en-933-1-2012" });
    expect(lossCheck(factsOf({ chargeG: 302.4 }), rules).state).toBe("met");
    const [notice] = lossCheck(factsOf({ chargeG: 304 }), rules).notices;
    expect(notice).toMatchObject({ limit: "1 %", source: "EN 933-1 (recalled: check your copy)" });
  });

  test("invalidates exactly when loss or gain is beyond the limit", () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 29_000, max: 31_000 }).map((n) => n / 100),
        fc.integer({ min: 1, max: 500 }).map((n) => n / 100),
        (chargeG, maxLossPct) => {
          const facts = factsOf({ chargeG });
          const lossPct = (100 * (chargeG - 299.91)) / chargeG;
          fc.pre(Math.abs(Math.abs(lossPct) - maxLossPct) > 1e-6);
          const state = lossCheck(facts, rulesOf({ maxLossPct })).state;
          expect(state).toBe(Math.abs(lossPct) > maxLossPct ? "not met" : "met");
        },
      ),
    ));

  test("allows the limit itself: 0.3 g of 100 g at 0.3 %", () => {
    const weighings = [
      [500, 100, 149.7],
      [0, 200, 250],
    ] as const;
    expect(lossCheck(factsOf({ chargeG: 100, weighings }), THREE_TENTHS).state).toBe("met");
    expect(lossCheck(factsOf({ chargeG: 100.01, weighings }), THREE_TENTHS).state).toBe("not met");
  });
});

describe("the slips behind a gap", () => {
  test("prefer the empty sieve that becomes what it usually weighs", () => {
    const wrongEmpty = WEIGHINGS.map((row) => (row[0] === 500 ? ([500, 356.95, row[2]] as const) : row));
    const usualEmptyG = new Map(WEIGHINGS.map(([um, emptyG]) => [um, emptyG + 0.02]));
    const [first] = gapExplanations(factsOf({ weighings: wrongEmpty }, { usualEmptyG }), 0.3);
    expect(first).toMatchObject({ field: "emptyG", apertureUm: 500, meantG: 366.95, usual: true });
  });

  test("are none without a charge", () => expect(gapExplanations(factsOf({ chargeG: null }), 0.3)).toEqual([]));

  test("are looked for in net masses where sieves were not weighed empty and full", () => {
    const facts = factsOf();
    const nets = {
      ...facts.grading,
      rows: facts.grading.rows.map((row) => ({
        ...row,
        emptyG: null,
        fullG: null,
        netG: row.netG + (row.apertureUm === 710 ? 100 : 0),
      })),
    };
    const found = gapExplanations({ ...facts, grading: nets }, 0.3);
    expect(found).toContainEqual(expect.objectContaining({ field: "netG", apertureUm: 710, meantG: 110.53 }));
    expect(new Set(found.map((explanation) => explanation.field))).toEqual(new Set(["chargeG", "netG"]));
  });
});
