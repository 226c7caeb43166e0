import { describe, expect, test } from "vitest";
import { budgetOf } from "../../src/uncertainty/budget.ts";
import { conditionsOf } from "../../src/uncertainty/conditionsOf.ts";
import { ruleOf } from "../../src/uncertainty/decision/ruleOf.ts";
import { passingSure, sand } from "./situations.ts";

const BALANCE = { readabilityG: 0.01, repeatabilityG: 0.02, linearityG: 0.03, driftG: 0.04 };

describe("the conditions of a budget", () => {
  test("where nothing is known count the sieves within the tolerance of the series, and nothing else", () => {
    expect(conditionsOf(null, {})).toEqual({
      apertures: { known: [], others: "tolerance" },
      material: {},
      loss: {},
    });
  });

  test("take the figures of the balance as they stand, and one portion unless there were more", () => {
    expect(conditionsOf(null, { balance: { readabilityG: 0.01 } }).balance).toEqual({
      readabilityG: 0.01,
      portions: 1,
    });
    expect(conditionsOf(null, { balance: BALANCE, portions: 3 }).balance).toEqual({ ...BALANCE, portions: 3 });
  });

  test("take density, shape, sampling, dust and what is off from the product", () => {
    const product = {
      material: { particleDensityKgM3: 2650, volumeShapeFactor: 0.5, sphericity: 0.9 },
      uncertainty: { off: ["drift" as const], sampling: { sampleG: 5000, grouping: 1 }, dustShare: 0.2 },
    };
    expect(conditionsOf(product, {})).toMatchObject({
      material: { particleDensityKgM3: 2650, volumeShapeFactor: 0.5 },
      sampling: { kind: "fundamental", sampleG: 5000, grouping: 1 },
      loss: { dustShare: 0.2 },
      off: ["drift"],
    });
    expect(conditionsOf({ uncertainty: { sampling: { sdPctAt50: 0.8 } } }, {}).sampling).toEqual({
      kind: "stated",
      sdPctAt50: 0.8,
    });
  });

  test("go by the product's remainder before the check minute, and by that before nothing", () => {
    const movedG = [{ apertureUm: 500, massG: 0.2 }];
    expect(conditionsOf({ uncertainty: { remainderPct: 0.1 } }, { movedG }).endPoint).toEqual({ remainderPct: 0.1 });
    expect(conditionsOf(null, { movedG }).endPoint).toEqual({ movedG });
    expect(conditionsOf(null, { movedG: [] }).endPoint).toBeUndefined();
  });

  test("without certificates take the sieves as exact where the product says so: not included, and why", () => {
    const exact = { uncertainty: { apertures: "none" as const } };
    const budget = budgetOf(sand(), conditionsOf(exact, {}), []);
    expect(budget.components.find(({ id }) => id === "apertures")).toMatchObject({
      included: false,
      reason: "no sieve has a certificate, and the product takes the others as exact",
    });
    const known = [{ apertureUm: 500, meanUm: 505, expandedUm: 4 }];
    const certified = budgetOf(sand(), conditionsOf(exact, { knownApertures: known }), []);
    expect(certified.components.find(({ id }) => id === "apertures")).toMatchObject({ included: true });
    const ofSieves = (um: number) => {
      const part = passingSure(certified, um).components.find(({ id }) => id === "apertures");
      return part?.included ? part.u : null;
    };
    expect(ofSieves(1000)).toBe(0);
    expect(ofSieves(500)).toBeGreaterThan(0);
  });
});

describe("the rule of a limit", () => {
  test("is the product's, but for what the limit states itself", () => {
    const product = { rule: "guarded", guards: "both", guard: { r: 0.5 }, side: "max" } as const;
    expect(ruleOf(undefined, undefined)).toEqual({ kind: "simple" });
    expect(ruleOf({ rule: "guarded" }, undefined)).toEqual({ kind: "guarded acceptance" });
    expect(ruleOf(product, undefined)).toEqual({ kind: "guarded both", guard: { r: 0.5 }, side: "max" });
    expect(ruleOf(product, { guard: { u: 2 } })).toEqual({ kind: "guarded both", guard: { z: 2 }, side: "max" });
    expect(ruleOf(product, { rule: "simple" })).toEqual({ kind: "simple" });
    expect(ruleOf({ rule: "simple" }, { rule: "guarded", guards: "rejection" })).toEqual({ kind: "guarded rejection" });
  });
});
