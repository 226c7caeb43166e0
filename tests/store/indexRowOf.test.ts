import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import { IndexRowSchema } from "../../src/record/indexRow.ts";
import type { TestEntry } from "../../src/record/logEntry.ts";
import { FIRST_PREVIOUS } from "../../src/record/seal.ts";
import type { TestRecord } from "../../src/record/test.ts";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import { must } from "./opened.ts";
import { testRecord } from "./records.ts";

const entryOf = (change: Partial<TestRecord> = {}): TestEntry => ({
  kind: "test",
  number: 7,
  at: "2026-11-24T08:31:00+01:00",
  day: "2026-11-24",
  station: "TH-DRY1",
  by: "KO",
  previous: FIRST_PREVIOUS,
  test: { ...testRecord("T-1"), ...change },
});

describe("the index row of a test", () => {
  test("is one that the index can keep and read back", () => {
    const row = indexRowOf(entryOf());
    expect(IndexRowSchema.parse(JSON.parse(JSON.stringify(row)))).toEqual(row);
  });

  test("says who, what and when, and the verdicts as signed, whatever the figures say now", () => {
    const signed = { program: "0.0.9", test: "invalid", product: "fail", lossPct: 1.5 } as const;
    expect(indexRowOf(entryOf({ signed, disposition: "hold" }))).toMatchObject({
      number: 7,
      testId: "T-1",
      day: "2026-11-24",
      product: "TH-0510",
      revision: 3,
      lot: "4471-B",
      by: "KO",
      test: "invalid",
      verdict: "fail",
      lossPct: 1.5,
      disposition: "hold",
    });
  });

  test("has the passing % of each sieve, to eight digits, as the assessment has them", () => {
    const { test } = entryOf();
    const { fractions } = must(assessTest(test));
    const { passingPct } = indexRowOf(entryOf());
    expect(Object.keys(passingPct)).toEqual(["500", "710", "1000", "1400"]); // as JSON orders whole numbers
    for (const { apertureUm, passingPct: exact } of fractions.filter((one) => one.apertureUm > 0))
      expect(passingPct[apertureUm]).toBeCloseTo(exact, 6);
  });

  test("has each figure that could be determined and no other", () => {
    const { values, percentilesUm } = must(assessTest(entryOf().test));
    const determined = [
      ...Object.entries(values).map(([id, found]) => [id, found.determinable] as const),
      ...Object.entries(percentilesUm).map(([q, found]) => [`percentileUm@${q}`, found.determinable] as const),
    ];
    const expected = determined.filter(([, is]) => is).map(([name]) => name);
    expect(expected).toContain("percentileUm@50");
    expect(Object.keys(indexRowOf(entryOf()).values).sort()).toEqual([...expected].sort());
  });

  test("of a test that can't be assessed has no figures, but it has a row", () => {
    const weighings = testRecord("T-1").weighings.map((one) => ({ ...one, fullG: null }));
    expect(indexRowOf(entryOf({ weighings }))).toMatchObject({ testId: "T-1", values: {}, passingPct: {} });
  });
});
