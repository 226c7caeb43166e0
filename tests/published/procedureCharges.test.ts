import { describe, expect, test } from "vitest";
import { minimumChargeG } from "../../src/procedure/charge/minimumCharge.ts";
import { aashtoT27, astmC136, en9331 } from "../../src/procedure/rules/aggregates.ts";
import type { RuleSet } from "../../src/procedure/rules/ruleSet.ts";
import { RULE_SETS } from "../../src/procedure/rules/ruleSets.ts";
import published from "./examples/procedure-limits.json" with { type: "json" };

const { astmC136: c136, washingtonState, en933 } = published.minimumCharge;

const leastKg = ({ charge }: RuleSet, largestMm: number): number => {
  const found = charge === null ? null : minimumChargeG(charge, largestMm);
  return found?.determinable ? found.value / 1000 : Number.NaN;
};

describe("ASTM C136/C136M, minimum test samples (memory)", () => {
  test.each(c136.rows)("$largestMm mm: $kg kg", ({ largestMm, kg }) => expect(leastKg(astmC136, largestMm)).toBe(kg));

  test("fine aggregate: 300 g", () => expect(1000 * leastKg(astmC136, 4.75)).toBe(c136.fineG));

  test("is marked as recalled", () => expect(astmC136.charge?.standing).toBe(c136.status));
});

describe("Washington State DOT Materials Manual M 46-01, T 27_T 11, Table 1, January 2018 (seen)", () => {
  test.each(washingtonState.rows)("$largestMm mm: $kg kg", ({ largestMm, kg }) =>
    expect(leastKg(aashtoT27, largestMm)).toBe(kg),
  );

  test("is marked as seen", () => expect(aashtoT27.charge?.standing).toBe(washingtonState.status));
});

describe("EN 933-1, test portions (memory)", () => {
  test.each(en933.rows)("$largestMm mm: $kg kg", ({ largestMm, kg }) => expect(leastKg(en9331, largestMm)).toBe(kg));

  // The table and its own law (D/10)^2 differ by rounding, and by 25 % at 4 mm, where the table holds.
  test.each(en933.squareLaw.rows.filter((row) => row.largestMm > 4))(
    "$largestMm mm: the table agrees with the law's $kg kg to 7 %",
    ({ largestMm, kg }) => expect(Math.abs(leastKg(en9331, largestMm) / kg - 1)).toBeLessThan(0.07),
  );

  test("0.2 kg below 4 mm (seen, BRE cross-test)", () => expect(leastKg(en9331, 2)).toBe(0.2));
});

describe("the methods against each other at 19 mm (computed)", () => {
  test("C136 asks 5 kg, Washington State 3 kg, EN 933-1 by its law 3.6 kg", () => {
    expect(leastKg(astmC136, 19)).toBe(5);
    expect(leastKg(aashtoT27, 19)).toBe(3);
    expect(leastKg(en9331, 19)).toBeCloseTo(3.61, 6);
  });
});

describe("masses that are the same for every material", () => {
  test.each([
    // ANSI/ASAE S319.4 (memory)
    ["asae-s319-4", 100, null, "memory"],
    // USP chapter 786: at least 25 g (seen), up to 100 g (memory)
    ["usp-786", 25, 100, "memory"],
    // ASTM D1921 (memory)
    ["astm-d1921", 50, null, "memory"],
    // EN ISO 11125-2: 100 g plus or minus 0.5 g (seen)
    ["iso-11125-2", 99.5, 100.5, "seen"],
    // AFS grain fineness (memory)
    ["afs-sand", 50, null, "memory"],
  ] as const)("%s: from %s g to %s g, %s", (id, minG, maxG, standing) => {
    const set = RULE_SETS.find((s) => s.id === id);
    expect(set?.charge).toMatchObject({ kind: "fixed", minG, maxG, standing });
  });
});
