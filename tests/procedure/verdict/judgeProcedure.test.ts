import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { balanceState } from "../../../src/procedure/balance/balanceState.ts";
import type { ProcedureRules } from "../../../src/procedure/rules/resolve.ts";
import type { ProcedureFacts } from "../../../src/procedure/verdict/facts.ts";
import { judgeProcedure } from "../../../src/procedure/verdict/judgeProcedure.ts";
import type { ProcedureChoice } from "../../../src/record/procedure.ts";
import { factsOf, rulesOf, withFull } from "./testRun.ts";

const verdict = (facts: ProcedureFacts, rules: ProcedureRules) => judgeProcedure(facts, rules).verdict;
const severities = (facts: ProcedureFacts, rules: ProcedureRules) =>
  judgeProcedure(facts, rules).notices.map((notice) => notice.severity);

const NOW = "2026-11-24T03:12:00+01:00";
const failedBalance = balanceState(
  [{ at: NOW, balance: "BAL-1", by: "KO", readings: [{ nominalG: 500, readG: 501, toleranceG: 0.1 }] }],
  NOW,
  { per: "hours", hours: 8 },
);

describe("a product with a loss limit and nothing else", () => {
  const rules = rulesOf({ maxLossPct: 0.3 });

  test("is valid within it", () => expect(verdict(factsOf(), rules)).toBe("valid"));
  test("is invalid beyond it", () => expect(verdict(factsOf({ chargeG: 305 }), rules)).toBe("invalid"));
  test("is invalid by a gain", () => expect(verdict(factsOf({ chargeG: 295 }), rules)).toBe("invalid"));
  test("is not checked without a charge", () => expect(verdict(factsOf({ chargeG: null }), rules)).toBe("not checked"));
  test("is not checked with a pan that was not weighed", () =>
    expect(verdict(factsOf({}, { panAssumed: true }), rules)).toBe("not checked"));

  test("has no notices when valid, and asks nothing else", () => {
    const judged = judgeProcedure(factsOf(), rules);
    expect(judged.notices).toEqual([]);
    expect(judged.checks.filter((check) => check.state !== "not asked").map((check) => check.check)).toEqual(["loss"]);
    expect(judged.rules.map((rule) => rule.rule)).toEqual(["loss"]);
  });
});

describe("a product without any rule", () => {
  test("is not checked, without a word of complaint", () => {
    const judged = judgeProcedure(factsOf(), rulesOf({}));
    expect(judged).toMatchObject({ verdict: "not checked", notices: [], rules: [] });
  });

  test("is invalid all the same on a balance that failed", () =>
    expect(verdict(factsOf({}, { balance: failedBalance }), rulesOf({}))).toBe("invalid"));
});

describe("the verdict", () => {
  test("asks in the order of the work", () =>
    expect(judgeProcedure(factsOf(), rulesOf({})).checks.map((check) => check.check)).toEqual([
      "balance",
      "sieves",
      "charge",
      "readability",
      "moisture",
      "washing",
      "program",
      "load",
      "end point",
      "loss",
    ]));

  test("is invalid by one sieve overloaded, though the loss is right", () => {
    const rules = rulesOf({ maxLossPct: 0.3 }, { load: { rule: "own", limitG: 100 } });
    expect(verdict(factsOf(), rules)).toBe("invalid");
  });

  test("stays valid where the product only warns of an overload", () => {
    const rules = rulesOf({ maxLossPct: 0.3 }, { load: { rule: "own", limitG: 100, overload: "warning" } });
    expect(verdict(factsOf(), rules)).toBe("valid");
    expect(severities(factsOf(), rules)).toEqual(["warning"]);
  });

  test.each<[string, Partial<ProcedureChoice>]>([
    ["end point", { ruleSet: "astm-c136-2020", endPoint: { required: true } }],
    ["balance", { balance: { required: true } }],
    ["program", { program: { required: true } }],
    ["moisture", { moisture: { maxPct: 1, required: true } }],
    ["sieves", { sieves: { required: true } }],
  ])("is not checked where the required %s is missing", (check, choice) => {
    const judged = judgeProcedure(factsOf(), rulesOf({ maxLossPct: 0.3 }, choice));
    expect(judged.verdict).toBe("not checked");
    expect(judged.checks.find((c) => c.check === check)).toMatchObject({ state: "not done", required: true });
  });

  test("is not checked where a washed product was not washed", () =>
    expect(verdict(factsOf(), rulesOf({ maxLossPct: 0.3, washed: true }))).toBe("not checked"));

  test("stays valid where the same checks are missing but not required", () => {
    const rules = rulesOf({ maxLossPct: 0.3 }, { ruleSet: "astm-c136-2020", moisture: { maxPct: 1 } });
    expect(verdict(factsOf(), rules)).toBe("valid");
    expect(new Set(severities(factsOf(), rules))).toEqual(new Set(["note"]));
  });

  test("is invalid rather than not checked where both are true", () => {
    const rules = rulesOf({ maxLossPct: 0.3 }, { balance: { required: true } });
    expect(verdict(factsOf({ chargeG: 305 }), rules)).toBe("invalid");
  });

  test("puts the gravest notices first, each with what to do", () => {
    const rules = rulesOf({ maxLossPct: 0.3, chargeG: { min: 400 } }, { ruleSet: "en-933-1-2012", frameMm: 200 });
    const facts = factsOf({ chargeG: 310, weighings: withFull(355, 480) });
    const judged = judgeProcedure(facts, rules);
    expect(judged.notices.map((notice) => [notice.severity, notice.id])).toEqual([
      ["invalidates", "sieve-overloaded"],
      ["invalidates", "gain-high"],
      ["warning", "charge-small"],
      ["note", "end-point-unknown"],
    ]);
    for (const { remedy, rule, source } of judged.notices) {
      expect(remedy.length).toBeGreaterThan(10);
      expect(rule.length).toBeGreaterThan(3);
      expect(source.length).toBeGreaterThan(3);
    }
  });
});

describe("whatever the facts and rules", () => {
  const anySeverity = fc.constantFrom("note", "warning", "invalidates" as const);
  const anyChoice: fc.Arbitrary<Partial<ProcedureChoice>> = fc.record({
    ruleSet: fc.constantFrom("own", "astm-c136-2020", "en-933-1-2012", "usp-786", "iso-11125-2"),
    frameMm: fc.constantFrom(200, 203, 300),
    load: fc.record({ overload: anySeverity }),
    endPoint: fc.record({ required: fc.boolean(), notReached: anySeverity }),
    balance: fc.record({ required: fc.boolean() }),
    moisture: fc.record({ maxPct: fc.constant(0.5), required: fc.boolean(), above: anySeverity }),
    sieves: fc.record({ required: fc.boolean() }),
  });
  const anyFacts = fc
    .record({
      chargeG: fc.oneof(
        fc.constant(null),
        fc.integer({ min: 298_00, max: 303_00 }).map((n) => n / 100),
      ),
      moisturePct: fc.constantFrom(null, 0.1, 2),
      failed: fc.boolean(),
      passedG: fc.constantFrom(null, 0.1, 4),
    })
    .map(({ chargeG, moisturePct, failed, passedG }) =>
      factsOf(
        { chargeG },
        {
          moisturePct,
          balance: failed ? failedBalance : null,
          endPoint: passedG === null ? [] : [{ apertureUm: 710, beforeG: 110, passedG }],
        },
      ),
    );
  const anyCase = fc.tuple(anyFacts, anyChoice, fc.constantFrom(undefined, 0.05, 0.3, 2));

  test("invalid is said exactly when a notice invalidates", () =>
    fc.assert(
      fc.property(anyCase, ([facts, choice, maxLossPct]) => {
        const judged = judgeProcedure(facts, rulesOf(maxLossPct === undefined ? {} : { maxLossPct }, choice));
        const grave = judged.notices.some((notice) => notice.severity === "invalidates");
        expect(judged.verdict === "invalid").toBe(grave);
      }),
    ));

  test("valid is said only when the loss was checked and no required check is missing", () =>
    fc.assert(
      fc.property(anyCase, ([facts, choice, maxLossPct]) => {
        const judged = judgeProcedure(facts, rulesOf(maxLossPct === undefined ? {} : { maxLossPct }, choice));
        const loss = judged.checks.find((check) => check.check === "loss");
        const missing = judged.checks.some((check) => check.required && check.state === "not done");
        if (judged.verdict === "valid") {
          expect(loss?.state).toBe("met");
          expect(missing).toBe(false);
        } else if (judged.verdict === "not checked") {
          expect(missing || loss?.state !== "met").toBe(true);
        }
      }),
    ));

  test("a check that is met or not asked never warns or invalidates, and one that fails always says something", () =>
    fc.assert(
      fc.property(anyCase, ([facts, choice]) => {
        for (const check of judgeProcedure(facts, rulesOf({ maxLossPct: 0.3 }, choice)).checks) {
          if (check.state === "met" || check.state === "not asked")
            expect(check.notices.filter((notice) => notice.severity !== "note")).toEqual([]);
          else expect(check.notices.length).toBeGreaterThan(0);
        }
      }),
    ));

  test("a tighter loss limit never makes an invalid test valid", () =>
    fc.assert(
      fc.property(anyFacts, anyChoice, fc.double({ min: 0.01, max: 2, noNaN: true }), (facts, choice, limitPct) => {
        const at = (maxLossPct: number) => verdict(facts, rulesOf({ maxLossPct }, choice));
        if (at(limitPct) === "invalid") expect(at(limitPct / 2)).toBe("invalid");
      }),
    ));

  test("the same facts give the same verdict, and stay as they were", () =>
    fc.assert(
      fc.property(anyFacts, anyChoice, (facts, choice) => {
        const before = structuredClone(facts);
        const rules = rulesOf({ maxLossPct: 0.3 }, choice);
        expect(judgeProcedure(facts, rules)).toEqual(judgeProcedure(facts, rules));
        expect(facts).toEqual(before);
      }),
    ));
});
