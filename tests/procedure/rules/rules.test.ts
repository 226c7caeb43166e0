import { describe, expect, test } from "vitest";
import { endPointText, rulesInForce } from "../../../src/procedure/rules/inForce.ts";
import { resolveRules } from "../../../src/procedure/rules/resolve.ts";
import { cited, type Founded } from "../../../src/procedure/rules/ruleSet.ts";
import { RULE_SETS, ruleSetOf } from "../../../src/procedure/rules/ruleSets.ts";
import { RULE_SET_IDS } from "../../../src/record/procedure.ts";

describe("the rule sets", () => {
  test("are those that a product file can name, in its order", () =>
    expect(RULE_SETS.map((set) => set.id)).toEqual([...RULE_SET_IDS]));

  test.each(RULE_SETS)("$id has a title, an edition, and a standing with a source for each figure", (set) => {
    expect(set.title.length).toBeGreaterThan(4);
    expect(set.edition.length).toBeGreaterThan(3);
    const founded: Founded[] = [set.load, set.endPoint, set.maxLossPct, set.charge, set.readability].filter(
      (figure) => figure !== null,
    );
    for (const { standing, source } of founded) {
      expect(["seen", "memory"]).toContain(standing);
      expect(source.length).toBeGreaterThan(5);
      expect(source).not.toMatch(/https?:|www\./);
    }
    if (set.id !== "own") expect(founded.length).toBeGreaterThan(0);
  });

  test("the plant's own has no figure of its own", () =>
    expect(ruleSetOf("own")).toMatchObject({
      load: null,
      endPoint: null,
      maxLossPct: null,
      charge: null,
      readability: null,
    }));

  test("a recalled figure is cited with a warning, others plainly", () => {
    expect(cited({ standing: "memory", source: "EN 933-1" })).toBe("EN 933-1 (recalled: check your copy)");
    expect(cited({ standing: "seen", source: "EN 933-1" })).toBe("EN 933-1");
    expect(cited({ standing: "own", source: "the product" })).toBe("the product");
  });
});

describe("the rules in force", () => {
  test("without a named rule set are the product's own loss and charge, nothing silent", () => {
    const rules = resolveRules({ maxLossPct: 0.5, chargeG: { min: 250, max: 350 } }, undefined);
    expect(rules.ruleSet).toBeNull();
    expect(rules.maxLossPct).toEqual({ value: 0.5, standing: "own", source: "the product" });
    expect(rules.charge).toMatchObject({ rule: null, ownMinG: 250, ownMaxG: 350 });
    expect([rules.load.rule, rules.endPoint.criterion, rules.balance.readability, rules.moisture.maxPct]).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });

  test("without any method are none", () => {
    const rules = resolveRules(undefined, undefined);
    expect(rules.maxLossPct).toBeNull();
    expect(rulesInForce(rules)).toEqual([]);
  });

  test("of a named rule set are the method's figures", () => {
    const rules = resolveRules({}, { ruleSet: "astm-c136-2020" });
    expect(rules.maxLossPct).toMatchObject({ value: 0.3, standing: "seen" });
    expect(rules.load.rule?.kind).toBe("area");
    expect(rules.endPoint.criterion).toMatchObject({ of: "charge", limitPct: 0.5 });
    expect(rules.balance.readability).toMatchObject({ stepG: 0.1, pctOfCharge: 0.1 });
  });

  test("take the product's loss limit before the method's", () =>
    expect(resolveRules({ maxLossPct: 0.2 }, { ruleSet: "en-933-1-2012" }).maxLossPct).toMatchObject({
      value: 0.2,
      standing: "own",
    }));

  test("say what happens where the product says no word", () => {
    const rules = resolveRules({}, { ruleSet: "own" });
    expect(rules.load.overload).toBe("invalidates");
    expect(rules.charge.outside).toBe("warning");
    expect(rules.endPoint).toMatchObject({ required: false, notReached: "invalidates" });
    expect(rules.balance).toMatchObject({ required: false, interval: "shift" });
    expect(rules.program).toEqual({ required: false, deviation: "warning", cutShort: "invalidates" });
    expect(rules.moisture).toEqual({ maxPct: null, required: false, above: "warning" });
    expect(rules.sieves.required).toBe(false);
    expect(rules.washed).toBe(false);
  });

  test("follow the product in each of its choices", () => {
    const rules = resolveRules(
      { washed: true },
      {
        ruleSet: "en-933-1-2012",
        frameMm: 300,
        charge: { largestParticleMm: 8, outside: "invalidates" },
        load: { overload: "warning" },
        endPoint: {
          criterion: { of: "charge", limitPct: 0.2, periodS: 120, sieves: "any" },
          required: true,
          notReached: "warning",
        },
        balance: { required: true, interval: { hours: 4 }, readabilityPct: 0.05 },
        program: { required: true, deviation: "invalidates" },
        moisture: { maxPct: 0.5, required: true, above: "invalidates" },
        sieves: { required: true },
      },
    );
    expect(rules.load).toMatchObject({ frame: 300, overload: "warning" });
    expect(rules.charge).toMatchObject({ largestMm: 8, outside: "invalidates" });
    expect(rules.endPoint).toEqual({
      criterion: { of: "charge", limitPct: 0.2, periodS: 120, sieves: "any", standing: "own", source: "the product" },
      required: true,
      notReached: "warning",
    });
    expect(rules.balance).toMatchObject({ required: true, interval: { hours: 4 } });
    expect(rules.balance.readability).toMatchObject({ stepG: null, pctOfCharge: 0.05, standing: "own" });
    expect(rules.program).toEqual({ required: true, deviation: "invalidates", cutShort: "invalidates" });
    expect(rules.moisture).toEqual({ maxPct: 0.5, required: true, above: "invalidates" });
    expect(rules.washed).toBe(true);
    expect(rules.sieves.required).toBe(true);
  });

  test.each([
    [undefined, "root-of-aperture"],
    [{ rule: "area" }, "area"],
    [{ rule: "root-of-aperture" }, "root-of-aperture"],
    [{ rule: "own", limitG: 100 }, "own"],
    [{ rule: "none" }, undefined],
  ] as const)("load %j over EN 933-1 gives the rule %s", (load, kind) =>
    expect(resolveRules({}, { ruleSet: "en-933-1-2012", ...(load ? { load } : {}) }).load.rule?.kind).toBe(kind),
  );

  test("keep the product's own limits in g", () =>
    expect(
      resolveRules({}, { ruleSet: "own", load: { rule: "own", perSieve: [{ apertureUm: 63, limitG: 25 }] } }).load.rule,
    ).toMatchObject({ kind: "own", limitG: null, perSieve: [{ apertureUm: 63, limitG: 25 }] }));
});

describe("the rules as a report shows them", () => {
  test("of ASTM C136, in the order of the work", () => {
    const shown = rulesInForce(resolveRules({}, { ruleSet: "astm-c136-2020", frameMm: 203 }));
    expect(shown.map(({ rule, text, standing }) => [rule, text, standing])).toEqual([
      ["charge", "at least the method's mass for the largest particle", "memory"],
      ["readability", "the balance reads 0.100 g or 0.10 % of the charge, whichever is larger", "seen"],
      ["load", "at most 7 kg/m2 below 4.75 mm, 2.5 kg/m2 for each mm of aperture from there", "seen"],
      ["end point", "each sieve passes at most 0.5 % of the charge in 1 min", "seen"],
      ["loss", "loss or gain at most 0.3 %", "seen"],
    ]);
    for (const { source } of shown) expect(source.length).toBeGreaterThan(10);
  });

  test("of a pharmacopoeia and of a plant", () => {
    const pharmacy = rulesInForce(resolveRules({}, { ruleSet: "usp-786" }));
    expect(pharmacy.map((shown) => shown.text)).toEqual([
      "25.00 g to 100.0 g",
      "each sieve passes at most 5 % of what it holds or 0.100 g in 5 min",
      "loss or gain at most 5 %",
    ]);
    const plant = rulesInForce(
      resolveRules(
        { maxLossPct: 0.4 },
        { ruleSet: "own", load: { rule: "own", limitG: 90 }, balance: { readabilityPct: 0.05 } },
      ),
    );
    expect(plant.map((shown) => shown.text)).toEqual([
      "the balance reads 0.05 % of the charge",
      "the product's own limits in g",
      "loss or gain at most 0.4 %",
    ]);
  });

  test("of feed: one portion, one sieve to check", () => {
    const feed = rulesInForce(resolveRules({}, { ruleSet: "asae-s319-4" }));
    expect(feed.map((shown) => shown.text)).toEqual([
      "at least 100.0 g",
      "the balance reads 0.100 g",
      "the finest loaded sieve passes at most 0.2 % of the charge in 5 min",
    ]);
  });

  test("tell a strict limit from one that is itself allowed", () => {
    const text = (id: "en-933-1-2012" | "astm-c136-2006") => endPointText(ruleSetOf(id).endPoint!);
    expect(text("en-933-1-2012")).toBe("each sieve passes less than 1 % of what it holds in 1 min");
    expect(text("astm-c136-2006")).toBe("each sieve passes at most 1 % of what it holds in 1 min");
  });
});
