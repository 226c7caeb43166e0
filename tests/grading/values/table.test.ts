import { readdirSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { GradingChoices } from "../../../src/grading/grading.ts";
import { percentiles } from "../../../src/grading/percentile.ts";
import { computed } from "../../../src/grading/values/computed.ts";
import { CHARACTERISTIC_VALUES, characteristicValues } from "../../../src/grading/values/table.ts";
import { CLASS_MEANS, MODULUS_SERIES } from "../../../src/record/product.ts";
import { VALUE_IDS } from "../../../src/record/valueIds.ts";
import { expectNear } from "../near.ts";
import { anyFractions, anyInterpolation, choices, fraction, graded, gradedOf, risingFractions } from "../stack.ts";

describe("the table", () => {
  test("has one row for every value id, and no other", () => {
    expect(CHARACTERISTIC_VALUES.map((row) => row.id).toSorted()).toEqual([...VALUE_IDS].toSorted());
  });

  test("has one file for each row", () => {
    const files = readdirSync(join(import.meta.dirname, "../../../src/grading/values"));
    for (const { id } of CHARACTERISTIC_VALUES) expect(files).toContain(`${id}.ts`);
  });

  test.each(CHARACTERISTIC_VALUES)("$id is told in words: label, needs, formula, convention, source", (row) => {
    expect(row.label.length).toBeLessThanOrEqual(22);
    for (const words of [row.label, row.needs, row.formula, row.convention, row.source]) {
      expect(words.trim()).toBe(words);
      expect(words.length).toBeGreaterThan(3);
    }
    expect(row.convention).toMatch(/\.$/);
  });

  test("labels tell the values apart", () => {
    expect(new Set(CHARACTERISTIC_VALUES.map((row) => row.label)).size).toBe(VALUE_IDS.length);
  });

  test.each(CHARACTERISTIC_VALUES)("$id comes in the unit that its row names", ({ determine, unit }) => {
    const afs = "4750:0 3350:1 2360:1 1700:2 1180:5 850:10 600:20 425:30 300:25 212:18 150:9 106:4 75:2 53:1 pan:1";
    const found = determine(graded(afs), choices({ material: { particleDensityKgM3: 2650 } }));
    expect(found).toMatchObject({ determinable: true, unit });
  });
});

const anyChoices: fc.Arbitrary<GradingChoices> = fc
  .record({
    interpolation: anyInterpolation,
    topUm: fc.option(fc.double({ min: 0.01, max: 1e6, noNaN: true }), { nil: undefined }),
    pan: fc.constantFrom(undefined, "dropped" as const, { sizeUm: 0.01 }, { sizeUm: 44 }),
    classMean: fc.constantFrom(undefined, ...CLASS_MEANS),
    material: fc.constantFrom({}, { particleDensityKgM3: 1320 }, { particleDensityKgM3: 0.001, sphericity: 0.01 }),
    modulusSeries: fc.constantFrom(...MODULUS_SERIES),
    modulusInterpolateMissing: fc.boolean(),
  })
  .map(({ topUm, pan, classMean, ...rest }) =>
    choices({
      ...rest,
      ...(topUm === undefined ? {} : { topUm }),
      ...(pan === undefined ? {} : { pan }),
      ...(classMean === undefined ? {} : { classMean }),
    }),
  );

describe("whatever the masses, sizes and choices", () => {
  test("every value is a finite number with its unit or a reason in words, never anything else", () => {
    fc.assert(
      fc.property(anyFractions, anyChoices, fc.boolean(), (fractions, chosen, ofCharge) => {
        const recoveredG = gradedOf(fractions).recoveredG;
        const grading = gradedOf(fractions, ofCharge ? { basis: "charge", chargeG: recoveredG * 1.01 } : {});
        const found = { ...characteristicValues(grading, chosen), ...percentiles(grading, chosen.interpolation) };
        for (const one of Object.values(found)) {
          if (one.determinable) expect(Number.isFinite(one.value)).toBe(true);
          else expect(one.reason).toMatch(/^[^\s].{5,}/);
          expect(JSON.stringify(one)).not.toMatch(/NaN|Infinity|undefined|null/);
        }
      }),
      { numRuns: 300 },
    );
  });

  test("even for sizes and masses that no plant has", () => {
    const absurd = [fraction(1e6, 1e7), fraction(1e-300, 0.001), fraction(5e-324, 1e-9), fraction(0, 1e7)];
    const material = { particleDensityKgM3: 5e-324 };
    for (const one of Object.values(characteristicValues(gradedOf(absurd), choices({ material })))) {
      if (one.determinable) expect(Number.isFinite(one.value)).toBe(true);
    }
  });

  test("masses times a constant change no value", () => {
    fc.assert(
      fc.property(risingFractions, anyChoices, fc.constantFrom(1e-3, 0.37, 1000), (fractions, chosen, factor) => {
        const [one, other] = [1, factor].map((f) =>
          characteristicValues(gradedOf(fractions.map((row) => ({ ...row, netG: row.netG * f }))), chosen),
        );
        for (const id of VALUE_IDS) {
          const [a, b] = [one?.[id], other?.[id]];
          expect(b?.determinable).toBe(a?.determinable);
          if (a?.determinable && b?.determinable) expectNear(b.value, a.value, 1e-6, 1e-6);
        }
      }),
    );
  });

  test("asking twice, or for one value alone, gives the same", () => {
    fc.assert(
      fc.property(risingFractions, anyChoices, (fractions, chosen) => {
        const all = characteristicValues(gradedOf(fractions), chosen);
        for (const { id, determine } of CHARACTERISTIC_VALUES.toReversed()) {
          expect(determine(gradedOf(fractions), { ...chosen })).toEqual(all[id]);
        }
      }),
      { numRuns: 30 },
    );
  });
});

test("a number that no double can hold is a reason", () => {
  expect(computed(Number.POSITIVE_INFINITY, "1", []).determinable).toBe(false);
  expect(computed(Number.NaN, "1", []).determinable).toBe(false);
  expect(computed(-0, "1", ["a", "a"])).toEqual({ determinable: true, value: 0, unit: "1", assumptions: ["a"] });
});
