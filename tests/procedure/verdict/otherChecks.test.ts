import { describe, expect, test } from "vitest";
import { balanceState } from "../../../src/procedure/balance/balanceState.ts";
import { balanceCheck, moistureCheck, sievesCheck, washingCheck } from "../../../src/procedure/verdict/beforeChecks.ts";
import { endPointCheck } from "../../../src/procedure/verdict/endPointCheck.ts";
import type { SieveCondition } from "../../../src/procedure/verdict/facts.ts";
import { programCheck } from "../../../src/procedure/verdict/programCheck.ts";
import type { BalanceCheck, EndPointReading } from "../../../src/record/checks.ts";
import type { Program } from "../../../src/record/program.ts";
import { factsOf, rulesOf } from "./testRun.ts";

const NOW = "2026-11-24T03:12:00+01:00";
const SHIFT = { per: "shift", began: "2026-11-23T22:00:00+01:00" } as const;
const weighed = (at: string, readG: number): BalanceCheck => ({
  at,
  balance: "BAL-1",
  by: "KO",
  readings: [{ nominalG: 500, readG, toleranceG: 0.1 }],
});

describe("the balance check", () => {
  const required = rulesOf({}, { balance: { required: true } });
  const checkedBy = (...checks: BalanceCheck[]) => factsOf({}, { balance: balanceState(checks, NOW, SHIFT) });

  test("is met by a good check of this shift", () =>
    expect(balanceCheck(checkedBy(weighed("2026-11-23T22:04:00+01:00", 500)), required)).toEqual({
      check: "balance",
      state: "met",
      required: true,
      text: "the balance is checked",
      notices: [],
    }));

  test("invalidates a test weighed on a balance that failed, required or not", () => {
    const failed = checkedBy(weighed("2026-11-23T22:04:00+01:00", 500), weighed("2026-11-24T02:00:00+01:00", 500.3));
    for (const rules of [required, rulesOf({})]) {
      const check = balanceCheck(failed, rules);
      expect(check.state).toBe("not met");
      expect(check.notices[0]).toMatchObject({
        id: "balance-failed",
        severity: "invalidates",
        remedy: "take it out of use, have it put right and checked, then weigh again",
      });
      expect(check.notices[0]?.text).toContain("results since 2026-11-23T22:04:00+01:00 are suspect as well");
    }
  });

  test("failing without a good check before names no moment", () => {
    const check = balanceCheck(checkedBy(weighed("2026-11-24T02:00:00+01:00", 500.3)), required);
    expect(check.notices[0]?.text).not.toContain("suspect");
  });

  test.each([
    ["balance-unchecked", checkedBy(), "the balance was never checked"],
    ["balance-unchecked", factsOf(), "nothing is known of the balance's checks"],
    [
      "balance-overdue",
      checkedBy(weighed("2026-11-23T20:00:00+01:00", 500)),
      "the balance was last checked before this shift",
    ],
  ])("%s is not done where required", (id, facts, text) => {
    const check = balanceCheck(facts, required);
    expect(check).toMatchObject({ state: "not done", required: true, text });
    expect(check.notices[0]).toMatchObject({ id, severity: "warning", rule: "balance checked once a shift" });
  });

  test("is a note where not required, and not asked where nothing is known", () => {
    expect(balanceCheck(checkedBy(), rulesOf({})).notices[0]?.severity).toBe("note");
    expect(balanceCheck(factsOf(), rulesOf({})).state).toBe("not asked");
  });

  test("tells the interval in hours", () => {
    const rules = rulesOf({}, { balance: { required: true, interval: { hours: 8 } } });
    expect(balanceCheck(checkedBy(), rules).notices[0]?.rule).toBe("balance checked every 8 h");
  });
});

describe("the sieves check", () => {
  const sieve = (state: SieveCondition["state"], more: Partial<SieveCondition> = {}): SieveCondition => ({
    apertureUm: 710,
    state,
    text: "inspection was due on 3 Nov",
    ...more,
  });
  const check = (...sieves: SieveCondition[]) => sievesCheck(factsOf({}, { sieves }), rulesOf({}));

  test("is met by fit sieves, with a note for one that is due", () => {
    expect(check(sieve("fit"))).toMatchObject({ state: "met", notices: [] });
    expect(check(sieve("fit"), sieve("due"))).toMatchObject({
      state: "met",
      notices: [{ id: "sieve-due", severity: "note" }],
    });
  });

  test("warns of an overdue sieve", () =>
    expect(check(sieve("overdue", { serial: "S-0710-2" }))).toMatchObject({
      state: "not met",
      text: "not fit: the 710 um sieve",
      notices: [
        {
          id: "sieve-overdue",
          severity: "warning",
          text: "the 710 um sieve (S-0710-2) is overdue: inspection was due on 3 Nov",
          remedy: "hold the sieve to the light, clean it and record its inspection",
        },
      ],
    }));

  test("invalidates a test with a sieve out of service", () =>
    expect(check(sieve("out of service", { text: "torn cloth" })).notices).toEqual([
      {
        id: "sieve-out-of-service",
        severity: "invalidates",
        text: "the 710 um sieve is out of service: torn cloth",
        found: "out of service",
        limit: null,
        rule: "sieves fit for use",
        source: "common practice, no source",
        remedy: "put another sieve of this aperture in the stack and repeat the test",
      },
    ]));

  test("is not done where nothing is known and the product requires it", () => {
    const required = rulesOf({}, { sieves: { required: true } });
    expect(sievesCheck(factsOf(), required)).toMatchObject({ state: "not done", required: true });
    expect(sievesCheck(factsOf(), rulesOf({})).state).toBe("not asked");
  });

  test("is not done by one known sieve of a whole stack where the product requires it", () => {
    const facts = factsOf({}, { sieves: [sieve("fit")] });
    const others = facts.grading.rows.filter(({ apertureUm }) => apertureUm > 0 && apertureUm !== 710);
    expect(others.length).toBeGreaterThan(0);
    const required = rulesOf({}, { sieves: { required: true } });
    expect(sievesCheck(facts, required)).toMatchObject({ state: "not done", notices: [{ id: "sieves-unknown" }] });
    expect(sievesCheck(facts, rulesOf({})).state).toBe("met");
    const all = others.map(({ apertureUm }) => sieve("fit", { apertureUm }));
    expect(sievesCheck(factsOf({}, { sieves: [sieve("due"), ...all] }), required).state).toBe("met");
  });
});

describe("the moisture check", () => {
  const rules = rulesOf({}, { moisture: { maxPct: 0.5 } });
  const at = (moisturePct: number | null) => moistureCheck(factsOf({}, { moisturePct }), rules);

  test("is met up to the limit", () => {
    expect(at(0.5)).toMatchObject({ state: "met", text: "moisture 0.50 %, limit 0.5 %" });
    expect(at(0)).toMatchObject({ state: "met" });
  });

  test("warns above it, or invalidates if the product says so", () => {
    expect(at(0.8).notices[0]).toMatchObject({
      id: "moisture-high",
      severity: "warning",
      text: "moisture 0.80 % is above 0.5 %: damp fines cling and count as coarse",
      remedy: "dry the portion as the site's rules allow, let it cool and repeat the test",
    });
    const strict = rulesOf({}, { moisture: { maxPct: 0.5, above: "invalidates" } });
    expect(moistureCheck(factsOf({}, { moisturePct: 0.8 }), strict).notices[0]?.severity).toBe("invalidates");
  });

  test("is not done where it was not measured", () => {
    expect(at(null)).toMatchObject({ state: "not done", required: false });
    const required = rulesOf({}, { moisture: { maxPct: 0.5, required: true } });
    expect(moistureCheck(factsOf(), required)).toMatchObject({ state: "not done", required: true });
    expect(moistureCheck(factsOf(), rulesOf({})).state).toBe("not asked");
  });
});

describe("the washing check", () => {
  const washed = rulesOf({ washed: true });

  test("is met with both dry masses, and tells the wash loss", () =>
    expect(washingCheck(factsOf({ chargeG: 320, washedG: 300.2 }), washed)).toMatchObject({
      state: "met",
      required: true,
      text: "washing took 19.80 g (6.19 %)",
    }));

  test("is not done where the product is washed and the test was not", () => {
    const check = washingCheck(factsOf(), washed);
    expect(check).toMatchObject({ state: "not done", required: true });
    expect(check.notices[0]).toMatchObject({ id: "wash-unknown", severity: "warning" });
  });

  test("invalidates a sample that got heavier", () => {
    const facts = { ...factsOf({ chargeG: 300.2 }), washedG: 301 };
    expect(washingCheck(facts, washed).notices[0]).toMatchObject({
      id: "wash-gain",
      severity: "invalidates",
      remedy: "dry the washed sample to constant mass and weigh it again",
    });
  });

  test("is not asked of a product that is not washed", () =>
    expect(washingCheck(factsOf(), rulesOf({})).state).toBe("not asked"));

  test("is told of a test that was washed all the same", () =>
    expect(washingCheck(factsOf({ chargeG: 320, washedG: 300.2 }), rulesOf({}))).toMatchObject({
      state: "met",
      required: false,
    }));
});

describe("the program check", () => {
  const program: Program = {
    schema: "sievewright.program/1",
    code: "SAND-10",
    name: "filter sand",
    motion: "vertical throw",
    durationS: 600,
  };
  const rules = rulesOf({});

  test("is met by a run as planned", () =>
    expect(programCheck(factsOf({}, { program, run: { durationS: 600 } }), rules)).toMatchObject({
      state: "met",
      text: "ran as program SAND-10 says",
    }));

  test("warns of a run that differs, in words", () => {
    const check = programCheck(factsOf({}, { program, run: { durationS: 720, motion: "hand" } }), rules);
    expect(check.notices[0]).toMatchObject({
      id: "program-deviation",
      severity: "warning",
      text: "the shaker did not run as program SAND-10 says: motion hand instead of vertical throw; ran 12 min instead of 10 min",
      found: "motion hand instead of vertical throw; ran 12 min instead of 10 min",
      rule: "program SAND-10",
    });
  });

  test("invalidates where the product says so", () => {
    const strict = rulesOf({}, { program: { deviation: "invalidates" } });
    const check = programCheck(factsOf({}, { program, run: { durationS: 720 } }), strict);
    expect(check.notices[0]?.severity).toBe("invalidates");
  });

  test("invalidates where the shaking was cut short and nothing proves that sieving was complete", () => {
    const short = factsOf({}, { program, run: { durationS: 420 }, cutShort: true });
    expect(programCheck(short, rules).notices[0]).toMatchObject({ severity: "invalidates" });
    expect(programCheck(short, rules).notices[0]?.remedy).toContain("the product has no end point");
    const lenient = rulesOf({}, { program: { deviation: "warning" } });
    expect(programCheck(short, lenient).notices[0]).toMatchObject({ severity: "warning" });
    const withinTolerance = factsOf({}, { program, run: { durationS: 588 }, cutShort: true });
    expect(programCheck(withinTolerance, rules).state).toBe("met");
  });

  test("only warns of shaking cut short where the check proved the end point", () => {
    const byMinute = rulesOf({}, { ruleSet: "astm-c136-2020" });
    const cut = { program, run: { durationS: 420 }, cutShort: true };
    const loaded = factsOf().grading.rows.filter(({ apertureUm, netG }) => apertureUm > 0 && netG > 0);
    const checked = (lostG: number) =>
      loaded.map(({ apertureUm, netG }) => ({ apertureUm, beforeG: netG, afterG: netG - lostG }));
    const judged = (lostG: number) => programCheck(factsOf({}, { ...cut, endPoint: checked(lostG) }), byMinute);
    expect(judged(0.01).notices[0]).toMatchObject({ severity: "warning" });
    expect(judged(0.01).text).toContain("the end point was proven");
    expect(judged(4).notices[0]).toMatchObject({ severity: "invalidates" });
  });

  test("must be made where the countdown was passed over", () => {
    expect(programCheck(factsOf({}, { program, cutShort: true }), rules)).toMatchObject({
      state: "not done",
      required: true,
    });
  });

  test("is not done where the run was not noted, or a required program is missing", () => {
    expect(programCheck(factsOf({}, { program }), rules)).toMatchObject({ state: "not done", required: false });
    const required = rulesOf({}, { program: { required: true } });
    expect(programCheck(factsOf(), required)).toMatchObject({
      state: "not done",
      required: true,
      text: "no program was chosen",
    });
    expect(programCheck(factsOf(), rules).state).toBe("not asked");
  });
});

describe("the end-point check", () => {
  const rules = rulesOf({}, { ruleSet: "astm-c136-2020" });
  const reading = (apertureUm: number, beforeG: number, afterG: number): EndPointReading => ({
    apertureUm,
    beforeG,
    afterG,
  });
  const all = [
    reading(1400, 5.71, 5.7),
    reading(1000, 56.46, 56.3),
    reading(710, 110.53, 110.3),
    reading(500, 80.41, 80.2),
    reading(355, 37.1, 37.0),
  ];
  const check = (endPoint: readonly EndPointReading[], by = rules) => endPointCheck(factsOf({}, { endPoint }), by);

  test("is met when every loaded sieve is complete", () =>
    expect(check(all)).toMatchObject({
      state: "met",
      text: "end point reached, at most 0.08 % passed in the check",
      notices: [],
    }));

  test("invalidates where a sieve still lets grains through, one notice a sieve", () => {
    const two = [reading(710, 110.53, 107), reading(500, 80.41, 78)];
    const result = check([...all.slice(0, 2), ...two, all[4]!]);
    expect(result).toMatchObject({
      state: "not met",
      text: "sieving was not complete on the 710 um sieve and the 500 um sieve",
    });
    expect(result.notices[0]).toEqual({
      id: "end-point-not-reached",
      severity: "invalidates",
      text: "the 710 um sieve still let 3.53 g (1.18 %) through in the check",
      found: "1.18 %",
      limit: "0.5 %",
      rule: "each sieve passes at most 0.5 % of the charge in 1 min",
      source: "technician checklist for ASTM C136/C136M, form dated 09/2020",
      remedy:
        "put the stack back on the shaker, then check the 710 um sieve again; if this comes often, lengthen the program",
    });
  });

  test("warns only, where the product says so", () => {
    const lenient = rulesOf({}, { ruleSet: "astm-c136-2020", endPoint: { notReached: "warning" } });
    expect(check([reading(710, 110.53, 107)], lenient).notices[0]?.severity).toBe("warning");
  });

  test("is not done where no sieve was checked: a note, or a warning where required", () => {
    expect(check([])).toMatchObject({ state: "not done", required: false, text: "the end point was not checked" });
    expect(check([]).notices[0]).toMatchObject({ id: "end-point-unknown", severity: "note" });
    const required = rulesOf({}, { ruleSet: "astm-c136-2020", endPoint: { required: true } });
    expect(check([], required).notices[0]?.severity).toBe("warning");
  });

  test("names the sieves that are still to check", () =>
    expect(check(all.slice(0, 3)).text).toBe("the end point was not checked on the 500 um sieve and the 355 um sieve"));

  test("says that a share of the charge needs the charge", () => {
    const result = endPointCheck(factsOf({ chargeG: null }, { endPoint: all }), rules);
    expect(result).toMatchObject({
      state: "not done",
      text: "without a charge nothing can be said of the 1.40 mm sieve",
    });
  });

  test("that is required without a criterion is not done, and says what to give", () => {
    const check = endPointCheck(factsOf(), rulesOf({}, { endPoint: { required: true } }));
    expect(check).toMatchObject({
      state: "not done",
      required: true,
      text: "the product requires an end point but says not which",
    });
    expect(check.notices[0]).toMatchObject({
      id: "end-point-unset",
      severity: "warning",
      remedy: "give a criterion in the product's procedure, or name a rule set that has one",
    });
  });

  test("is not asked without a criterion", () => expect(check(all, rulesOf({})).state).toBe("not asked"));

  test("of the two C136 wordings differs on a sieve that holds little", () => {
    const few = all.map((r) => (r.apertureUm === 355 ? reading(355, 37.1, 36.5) : r));
    expect(check(few).state).toBe("met");
    const older = check(few, rulesOf({}, { ruleSet: "astm-c136-2006" }));
    expect(older.notices.map((notice) => notice.found)).toEqual(["1.62 %"]);
  });
});
