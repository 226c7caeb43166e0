import { describe, expect, test } from "vitest";
import { chargeCheck, readabilityCheck } from "../../../src/procedure/verdict/chargeCheck.ts";
import { loadCheck } from "../../../src/procedure/verdict/loadCheck.ts";
import { factsOf, rulesOf, withFull } from "./testRun.ts";

describe("the charge check", () => {
  const range = rulesOf({ chargeG: { min: 250, max: 350 } });

  test("is met within the product's range", () =>
    expect(chargeCheck(factsOf(), range)).toMatchObject({
      state: "met",
      required: false,
      text: "charge 300.2 g, wanted at least 250.0 g, at most 350.0 g",
      notices: [],
    }));

  test("allows both ends of the range", () => {
    for (const chargeG of [300.2, 300.2]) {
      expect(chargeCheck(factsOf({ chargeG }), rulesOf({ chargeG: { min: chargeG } })).state).toBe("met");
      expect(chargeCheck(factsOf({ chargeG }), rulesOf({ chargeG: { max: chargeG } })).state).toBe("met");
    }
  });

  test("warns of too small a charge, with the portion to split", () =>
    expect(chargeCheck(factsOf({ chargeG: 249.96 }), range).notices).toEqual([
      {
        id: "charge-small",
        severity: "warning",
        text: "a charge of 249.96 g is too small to stand for the material",
        found: "249.96 g",
        limit: "at least 250.0 g",
        rule: "charge at least 250.0 g",
        source: "the product",
        remedy: "split a portion of at least 250.0 g and repeat the test",
      },
    ]));

  test("warns of too large a charge", () =>
    expect(chargeCheck(factsOf({ chargeG: 400 }), range).notices[0]).toMatchObject({
      id: "charge-large",
      severity: "warning",
      found: "400.0 g",
      limit: "at most 350.0 g",
      remedy: "split it once more, or sieve it in portions",
    }));

  test("invalidates where the product says so", () => {
    const strict = rulesOf({ chargeG: { min: 400 } }, { charge: { outside: "invalidates" } });
    expect(chargeCheck(factsOf(), strict).notices[0]?.severity).toBe("invalidates");
  });

  test("takes the method's table for the product's largest particle", () => {
    const c136 = rulesOf({}, { ruleSet: "astm-c136-2020", charge: { largestParticleMm: 9.5 } });
    expect(chargeCheck(factsOf(), c136).notices[0]).toMatchObject({
      id: "charge-small",
      limit: "at least 1000 g",
      source: "ASTM C136/C136M, table of minimum test samples (recalled: check your copy)",
    });
  });

  test("says what is missing where the method goes by a particle size that the product does not give", () => {
    const check = chargeCheck(factsOf(), rulesOf({}, { ruleSet: "astm-c136-2020" }));
    expect(check).toMatchObject({
      state: "not done",
      required: false,
      text: "no smallest charge: the largest particle of the product is not given",
    });
    expect(check.notices[0]).toMatchObject({
      id: "charge-unjudged",
      severity: "note",
      remedy: "give the largest particle, or a smallest charge, in the product's method",
    });
  });

  test("is not asked where nothing sets a range, and not done where the charge was not weighed", () => {
    expect(chargeCheck(factsOf(), rulesOf({})).state).toBe("not asked");
    const check = chargeCheck(factsOf({ chargeG: null }), range);
    expect(check).toMatchObject({ state: "not done", required: false });
    expect(check.notices[0]).toMatchObject({ id: "charge-unknown", severity: "note" });
  });

  test("holds to both ends of a fixed portion, 100 g plus or minus 0.5 g", () => {
    const abrasive = rulesOf({}, { ruleSet: "iso-11125-2" });
    expect(chargeCheck(factsOf(), abrasive).notices[0]).toMatchObject({
      id: "charge-large",
      limit: "at most 100.5 g",
      source: "EN ISO 11125-2, clauses 3 to 5",
    });
  });
});

describe("the readability check", () => {
  const rules = rulesOf({}, { ruleSet: "aashto-t27-2011", charge: { largestParticleMm: 4 } });

  test("is met by 0.01 g for 300 g", () =>
    expect(readabilityCheck(factsOf({}, { readabilityG: 0.01 }), rules)).toMatchObject({
      state: "met",
      text: "the balance reads 0.010 g, fine enough for this charge",
    }));

  test("warns of 1 g for 300 g: 0.1 % is 0.3 g", () =>
    expect(readabilityCheck(factsOf({}, { readabilityG: 1 }), rules).notices).toEqual([
      {
        id: "balance-coarse",
        severity: "warning",
        text: "the balance reads in steps of 1.00 g, too coarse for a charge of 300.2 g",
        found: "1.00 g",
        limit: "0.300 g",
        rule: "readability at most 0.300 g",
        source: "AASHTO T 27-14, apparatus",
        remedy: "use a balance that reads 0.300 g or finer, or a larger charge",
      },
    ]));

  test("allows the larger of step and share in ASTM C136", () => {
    const c136 = rulesOf({}, { ruleSet: "astm-c136-2020" });
    expect(readabilityCheck(factsOf({ chargeG: 300.2 }, { readabilityG: 0.3 }), c136).state).toBe("met");
    expect(readabilityCheck(factsOf({ chargeG: 300.2 }, { readabilityG: 0.5 }), c136).state).toBe("not met");
  });

  test("is not asked without a rule, a charge or a balance", () => {
    expect(readabilityCheck(factsOf({}, { readabilityG: 1 }), rulesOf({})).state).toBe("not asked");
    expect(readabilityCheck(factsOf({ chargeG: null }, { readabilityG: 1 }), rules).state).toBe("not asked");
    expect(readabilityCheck(factsOf(), rules).state).toBe("not asked");
  });
});

describe("the load check", () => {
  const en = rulesOf({}, { ruleSet: "en-933-1-2012", frameMm: 200 });

  test("is met, and names the heaviest sieve with its share", () =>
    expect(loadCheck(factsOf(), en)).toMatchObject({
      state: "met",
      text: "heaviest load 84 % of its limit, the 710 um sieve",
      notices: [],
    }));

  test("invalidates an overload, with the number of portions to sieve in", () => {
    const over = loadCheck(factsOf({ weighings: withFull(710, 581.73), chargeG: 390.2 }), en);
    expect(over).toMatchObject({ state: "not met", text: "the 710 um sieve held too much" });
    expect(over.notices).toEqual([
      {
        id: "sieve-overloaded",
        severity: "invalidates",
        text: "the 710 um sieve held 200.5 g, 152 % of the 132.4 g that it may hold",
        found: "200.5 g",
        limit: "132.4 g",
        rule: "load at most 132.4 g",
        source: "BRE European cross-test of particle size distribution, method page (EN 933-1)",
        remedy: "sieve in two portions and add what each sieve held, or put a relief sieve above",
      },
    ]);
  });

  test("tells a load just beyond the limit from the limit", () => {
    const just = rulesOf({}, { load: { rule: "own", limitG: 110.5 } });
    expect(loadCheck(factsOf(), just).notices[0]?.text).toBe(
      "the 710 um sieve held 110.53 g, 100.03 % of the 110.5 g that it may hold",
    );
  });

  test("only warns where the product says so", () => {
    const lenient = rulesOf({}, { ruleSet: "en-933-1-2012", frameMm: 200, load: { overload: "warning" } });
    const over = loadCheck(factsOf({ weighings: withFull(710, 581.73) }), lenient);
    expect(over.notices.map((notice) => notice.severity)).toEqual(["warning"]);
  });

  test("names every overloaded sieve; the portions are those of the worst", () => {
    const own = rulesOf({}, { load: { rule: "own", limitG: 50 } });
    const over = loadCheck(factsOf(), own);
    expect(over.text).toBe("the 1.00 mm sieve, the 710 um sieve and the 500 um sieve held too much");
    expect(over.notices.length).toBe(3);
    for (const { remedy } of over.notices) expect(remedy).toContain("in three portions");
  });

  test("counts many portions in digits", () => {
    const tiny = rulesOf({}, { load: { rule: "own", limitG: 10 } });
    expect(loadCheck(factsOf(), tiny).notices[0]?.remedy).toContain("in 12 portions");
  });

  test("says what is missing where the frame is not given", () => {
    const check = loadCheck(factsOf(), rulesOf({}, { ruleSet: "en-933-1-2012" }));
    expect(check).toMatchObject({
      state: "not done",
      text: "no load can be judged: the frame of the sieves is not given",
    });
    expect(check.notices[0]).toMatchObject({ id: "load-unknown", severity: "note" });
  });

  test("is not asked without a rule", () => {
    expect(loadCheck(factsOf(), rulesOf({})).state).toBe("not asked");
    expect(loadCheck(factsOf(), rulesOf({}, { ruleSet: "en-933-1-2012", load: { rule: "none" } })).state).toBe(
      "not asked",
    );
  });

  test("judges the same test differently by the two published rules", () => {
    const fine = [
      [125, 300, 370],
      [63, 300, 350],
      [0, 200, 210],
    ] as const;
    const facts = factsOf({ weighings: fine, chargeG: 130 });
    const c136 = rulesOf({}, { ruleSet: "astm-c136-2020", frameMm: 203 });
    expect(loadCheck(facts, c136).state).toBe("met");
    expect(loadCheck(facts, en).notices.map((notice) => notice.found)).toEqual(["70.00 g", "50.00 g"]);
  });
});
