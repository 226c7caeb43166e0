import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type ChargeBound, chargeRange } from "../../../src/procedure/charge/chargeRange.ts";
import { loadsOf } from "../../../src/procedure/load/loads.ts";
import { resolveRules } from "../../../src/procedure/rules/resolve.ts";

const boundG = (found: ChargeBound | null): number => (found?.bound.determinable ? found.bound.value : Number.NaN);

const STACK_UM = [2000, 1000, 500, 250, 125, 63];
/** Shares of the charge on the sieves, in per cent, the rest in the pan. */
const anyShares = fc
  .array(fc.integer({ min: 1, max: 100 }), { minLength: STACK_UM.length + 1, maxLength: STACK_UM.length + 1 })
  .map((weights) => {
    const total = weights.reduce((sum, w) => sum + w, 0);
    return new Map(STACK_UM.map((um, i) => [um, (100 * weights[i]!) / total]));
  });
const anyRuleSet = fc.constantFrom("astm-c136-2020", "en-933-1-2012" as const);
const anyFrame = fc.constantFrom(200, 203, 300, 305, 400);

describe("a charge at the most of its range", () => {
  test("fills one sieve to its limit and overloads none, if the product grades as usual", () =>
    fc.assert(
      fc.property(anyShares, anyRuleSet, anyFrame, (shares, ruleSet, frameMm) => {
        const rules = resolveRules({}, { ruleSet, frameMm });
        const mostG = boundG(chargeRange(rules, STACK_UM, shares).most);
        const rows = STACK_UM.map((apertureUm) => ({ apertureUm, netG: (mostG * shares.get(apertureUm)!) / 100 }));
        const loads = loadsOf(rows, rules.load.rule!, frameMm);
        expect(loads.some((load) => load.overloaded)).toBe(false);
        const ratios = loads.map((load) => (load.ratio.determinable ? load.ratio.value : 0));
        expect(Math.max(...ratios)).toBeCloseTo(1, 9);
      }),
    ));

  test("overloads a sieve as soon as it is a hundredth more", () =>
    fc.assert(
      fc.property(anyShares, anyRuleSet, anyFrame, (shares, ruleSet, frameMm) => {
        const rules = resolveRules({}, { ruleSet, frameMm });
        const chargeG = 1.01 * boundG(chargeRange(rules, STACK_UM, shares).most);
        const rows = STACK_UM.map((apertureUm) => ({ apertureUm, netG: (chargeG * shares.get(apertureUm)!) / 100 }));
        expect(loadsOf(rows, rules.load.rule!, frameMm).some((load) => load.overloaded)).toBe(true);
      }),
    ));

  test("is never smaller in a larger frame", () =>
    fc.assert(
      fc.property(anyShares, anyRuleSet, (shares, ruleSet) => {
        const most = [200, 300, 400].map((frameMm) =>
          boundG(chargeRange(resolveRules({}, { ruleSet, frameMm }), STACK_UM, shares).most),
        );
        expect(most).toEqual(most.toSorted((a, b) => a - b));
      }),
    ));
});

describe("portions", () => {
  test("bring the least charge within what the stack carries, and one fewer would not", () =>
    fc.assert(
      fc.property(anyShares, anyFrame, fc.double({ min: 4, max: 30, noNaN: true }), (shares, frameMm, largestMm) => {
        const rules = resolveRules({}, { ruleSet: "en-933-1-2012", frameMm, charge: { largestParticleMm: largestMm } });
        const { least, most, portions } = chargeRange(rules, STACK_UM, shares);
        expect(boundG(least) / portions).toBeLessThanOrEqual(boundG(most) * (1 + 1e-8));
        if (portions > 1) expect(boundG(least) / (portions - 1)).toBeGreaterThan(boundG(most));
      }),
    ));
});

describe("two rules on one sand", () => {
  test("filter sand on 200 mm by EN 933-1 carries 265 g when 710 um holds half of it", () => {
    const shares = new Map([
      [1000, 20],
      [710, 50],
      [500, 25],
    ]);
    const rules = resolveRules({}, { ruleSet: "en-933-1-2012", frameMm: 200 });
    // 1 mm: 157.1 g / 0.20 = 785 g; 710 um: 132.4 / 0.5 = 264.7 g; 500 um: 111.1 / 0.25 = 444.3 g.
    expect(boundG(chargeRange(rules, [1000, 710, 500], shares).most)).toBeCloseTo(264.7, 1);
  });

  test("the same sand by ASTM C136 on 8 in. carries 399 g", () => {
    const shares = new Map([
      [1000, 20],
      [710, 50],
      [500, 25],
    ]);
    const rules = resolveRules({}, { ruleSet: "astm-c136-2020", frameMm: 203 });
    expect(boundG(chargeRange(rules, [1000, 710, 500], shares).most)).toBeCloseTo(399, 0);
  });
});
