import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import { IndexRowSchema } from "../../src/record/indexRow.ts";
import type { TestEntry } from "../../src/record/logEntry.ts";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import { plainJson } from "../../src/store/plainJson.ts";
import { recordedEntry } from "../screens/stage.ts";

const changed = (change: Partial<TestEntry["test"]>): TestEntry => {
  const entry = recordedEntry(7, "4471-B");
  return { ...entry, test: { ...entry.test, ...change } };
};
const assessmentOf = (entry: TestEntry) => {
  const assessed = assessTest(entry.test);
  if (!assessed.ok) throw new Error(assessed.reason);
  return assessed.value;
};

describe("the row that stands for a recorded test", () => {
  test("says who, what, where and when as the entry does", () => {
    const entry = recordedEntry(7, "4471-B");
    expect(indexRowOf(entry)).toMatchObject({
      number: 7,
      testId: "t-7",
      at: entry.at,
      day: entry.day,
      product: "TH-0510",
      revision: 3,
      lot: "4471-B",
      line: "Dryer 1",
      samplingPoint: "discharge",
      by: "KO",
      disposition: "release",
    });
    expect(IndexRowSchema.safeParse(indexRowOf(entry)).success).toBe(true);
  });

  test("has the verdicts and the loss as they were signed, whatever is computed now", () => {
    const signed = { program: "0.0.1", test: "invalid", product: "not judged", lossPct: 9 } as const;
    const row = indexRowOf(changed({ signed }));
    expect(row).toMatchObject({ test: "invalid", verdict: "not judged", lossPct: 9 });
    expect(assessmentOf(changed({ signed })).verdict.test).toBe("valid");
  });

  test("has every characteristic value that could be determined, to eight digits, and no other", () => {
    const entry = recordedEntry();
    const { values } = assessmentOf(entry);
    const row = indexRowOf(entry);
    for (const [id, found] of Object.entries(values)) {
      if (found.determinable) expect(row.values[id]).toBeCloseTo(found.value, 4);
      else expect(row.values).not.toHaveProperty(id);
    }
    expect(row.values.uniformityCoefficient).toBe(Number(row.values.uniformityCoefficient?.toPrecision(8)));
  });

  test("has percentiles by name, without those beyond the sieves", () => {
    const entry = recordedEntry();
    const { percentilesUm } = assessmentOf(entry);
    const { values } = indexRowOf(entry);
    const d50 = percentilesUm["50"];
    expect(values["percentileUm@50"]).toBeCloseTo(d50?.determinable ? d50.value : Number.NaN, 4);
    const beyond = Object.entries(percentilesUm).filter(([, found]) => !found.determinable);
    for (const [q] of beyond) expect(values).not.toHaveProperty([`percentileUm@${q}`]);
    expect(Object.keys(values).filter((id) => id.startsWith("percentileUm@"))).toHaveLength(12 - beyond.length);
  });

  test("has passing % by aperture in um, without the pan", () => {
    const { passingPct } = indexRowOf(recordedEntry());
    expect(
      Object.keys(passingPct)
        .map(Number)
        .toSorted((a, b) => b - a),
    ).toEqual([1400, 1000, 710, 500, 355]);
    expect(passingPct["1000"]).toBeCloseTo(100 - (100 * (5.71 + 56.46)) / 299.9, 6);
  });

  test("of a test that can't be assessed has no figures, but is listed all the same", () => {
    const [first, ...rest] = recordedEntry().test.weighings;
    const row = indexRowOf(changed({ weighings: first ? [{ ...first, fullG: null }, ...rest] : rest }));
    expect(row).toMatchObject({ values: {}, passingPct: {}, product: "TH-0510", test: "valid" });
    expect(IndexRowSchema.safeParse(row).success).toBe(true);
  });
});

test("whatever was weighed, the row fits the index and its file", () => {
  const nets = fc.array(fc.integer({ min: 0, max: 20_000 }), { minLength: 6, maxLength: 6 });
  fc.assert(
    fc.property(nets, (netHundredths) => {
      const { weighings } = recordedEntry().test;
      const row = indexRowOf(
        changed({
          chargeG: null,
          weighings: weighings.map((w, i) => ({ ...w, emptyG: 400, fullG: (40_000 + (netHundredths[i] ?? 0)) / 100 })),
        }),
      );
      expect(IndexRowSchema.safeParse(row).success).toBe(true);
      expect(JSON.parse(plainJson(row))).toEqual(row);
    }),
    { numRuns: 80 },
  );
});
