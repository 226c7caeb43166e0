import { describe, expect, test } from "vitest";
import { stackTest } from "../../src/assess/sieveTests.ts";
import type { TestRecord } from "../../src/record/test.ts";
import { product, testRecord } from "../store/records.ts";

const AT = "2026-11-20T08:00:00+01:00";
const serials = ["S-1400-1", "S-1000-1", "S-0710-1", "S-0500-1"];

function weighed(change: Partial<TestRecord> = {}, named: readonly string[] = serials): TestRecord {
  const test = testRecord("T-1", AT);
  const weighings = test.weighings.map((w, i) => {
    const serial = named[i];
    return { ...w, fullG: (w.emptyG ?? 0) + 60, ...(serial === undefined ? {} : { serial }) };
  });
  return { ...test, chargeG: 300, weighings, ...change };
}

describe("a test as effective apertures are looked for in it", () => {
  test("tells what each sieve passed, with its serial, the pan left out", () => {
    const found = stackTest(AT, weighed());
    expect(found?.at).toBe(AT);
    expect(found?.sieves.map(({ serial }) => serial)).toEqual(serials);
    expect(found?.sieves.map(({ passingPct }) => Math.round(passingPct))).toEqual([80, 60, 40, 20]);
  });

  test("leaves out the serial that was not told", () => {
    expect(stackTest(AT, weighed({}, serials.slice(0, 1)))?.sieves.map(({ serial }) => serial)).toEqual([
      "S-1400-1",
      undefined,
      undefined,
      undefined,
    ]);
  });

  test("says nothing where it is invalid or can't be assessed", () => {
    expect(stackTest(AT, weighed({ product: { ...product, method: { maxLossPct: 0.1 } }, chargeG: 500 }))).toBeNull();
    const unweighed = weighed().weighings.map((w) => ({ ...w, fullG: null }));
    expect(stackTest(AT, weighed({ weighings: unweighed }))).toBeNull();
  });
});
