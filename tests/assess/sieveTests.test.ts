import { describe, expect, test } from "vitest";
import { sieveTests } from "../../src/assess/sieveTests.ts";
import type { TestRecord } from "../../src/record/test.ts";
import { product, testRecord } from "../store/records.ts";

const serials = ["S-1400-1", "S-1000-1", "S-0710-1", "S-0500-1"];

function recorded(day: number, change: Partial<TestRecord> = {}, instead: readonly string[] = serials) {
  const at = `2026-11-${String(day).padStart(2, "0")}T08:00:00+01:00`;
  const test = testRecord(`T-${day}`, at);
  const weighings = test.weighings.map((w, i) => {
    const serial = instead[i];
    return { ...w, fullG: (w.emptyG ?? 0) + 60, ...(serial === undefined ? {} : { serial }) };
  });
  return { at, test: { ...test, chargeG: 300, weighings, ...change } };
}

describe("tests that effective apertures are looked for in", () => {
  test("tell what each sieve passed, with its serial, the pan left out", () => {
    const found = sieveTests([recorded(1)]);
    expect(found?.product).toBe("TH-0510");
    expect(found?.tests).toHaveLength(1);
    expect(found?.tests[0]?.sieves.map(({ serial }) => serial)).toEqual(serials);
    expect(found?.tests[0]?.sieves.map(({ passingPct }) => Math.round(passingPct))).toEqual([80, 60, 40, 20]);
  });

  test("are of one product on one stack, serial for serial: of several the longest series", () => {
    const other = ["S-1400-2", "S-1000-1", "S-0710-1", "S-0500-1"];
    const found = sieveTests([recorded(1, {}, other), recorded(2), recorded(3), recorded(4, {}, other), recorded(5)]);
    expect(found?.tests.map(({ at }) => at.slice(8, 10))).toEqual(["02", "03", "05"]);
    const products = sieveTests([recorded(1), recorded(2, { product: { ...product, code: "TH-MAS" } }), recorded(3)]);
    expect(products?.product).toBe("TH-0510");
  });

  test("of equally long ones the one used last", () => {
    const found = sieveTests([recorded(2), recorded(1, { product: { ...product, code: "TH-MAS" } })]);
    expect(found?.product).toBe("TH-0510");
  });

  test("an invalid test and one that can't be assessed say nothing", () => {
    const strict = { ...product, method: { maxLossPct: 0.1 } };
    const lossy = recorded(1, { product: strict, chargeG: 500 });
    const unweighed = recorded(2, { weighings: recorded(2).test.weighings.map((w) => ({ ...w, fullG: null })) });
    expect(sieveTests([lossy, unweighed])).toBeNull();
    expect(sieveTests([])).toBeNull();
  });
});
