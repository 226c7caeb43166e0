import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Product } from "../../src/record/product.ts";
import { lotStanding } from "../../src/shift/lot.ts";
import type { LotTest } from "../../src/shift/lotTest.ts";

const PRODUCT: Product = {
  schema: "sievewright.product/1",
  code: "TH-0510",
  name: "filter sand (invented)",
  revision: 3,
  stackUm: [1000, 500],
  envelope: [{ apertureUm: 500, passingPct: { max: 10 } }],
};
const averaging: Product = { ...PRODUCT, method: { retest: { ways: ["resample"], atMost: 1, average: true } } };

const OF_FIRST = { way: "resample", number: 1 } as const;

const tested = (number: number, value: number, change: Partial<LotTest> = {}): LotTest => {
  const above = value > 10;
  return {
    number,
    at: `2026-11-25T0${number}:00:00+01:00`,
    test: "valid",
    product: above ? "fail" : "pass",
    limits: [{ on: "passingPct@500", value, min: null, max: 10, result: above ? "above" : "within" }],
    voided: false,
    waived: false,
    ...change,
  };
};

describe("a lot", () => {
  test("with one valid test stands as that test", () => {
    expect(lotStanding([tested(1, 8)], PRODUCT)).toEqual({
      verdict: "pass",
      why: "by no. 1",
      counted: [1],
      average: null,
      warnings: [],
    });
  });

  test("that failed does not pass by a later pass", () => {
    expect(lotStanding([tested(1, 11), tested(2, 8), tested(3, 7)], PRODUCT)).toMatchObject({
      verdict: "fail",
      why: "no. 1 failed; a later pass does not take that away",
      warnings: [
        "2 retests, though the product's method names none",
        "not told whether second portion or resample: no. 2, no. 3",
      ],
    });
  });

  test("is decided by the average only where the product says so", () => {
    const tests = [tested(1, 11), tested(2, 8)];
    expect(lotStanding(tests, averaging)).toMatchObject({ verdict: "pass", why: "average of no. 1, no. 2" });
    expect(lotStanding(tests, averaging).average?.[0]?.value).toBe(9.5);
    expect(lotStanding(tests, { ...PRODUCT, method: { retest: { ways: ["resample"] } } }).verdict).toBe("fail");
  });

  test("fails by its average as well", () => {
    expect(lotStanding([tested(1, 13), tested(2, 8)], averaging).verdict).toBe("fail");
  });

  test("is told when it was tested more often than its method allows", () => {
    const again = [tested(2, 12, { retest: OF_FIRST }), tested(3, 5, { retest: OF_FIRST })];
    expect(lotStanding([tested(1, 11), ...again], averaging).warnings).toEqual([
      "2 retests, the product's method allows 1",
    ]);
  });

  test("is not judged on an average that one of its tests can't give", () => {
    const without = tested(2, 8, { limits: [], product: "not judged" });
    expect(lotStanding([tested(1, 9), without], averaging).verdict).toBe("not judged");
  });

  test.each([
    ["invalid", { test: "invalid" as const, product: "not judged" as const }, "no valid test"],
    ["voided", { voided: true }, "no valid test"],
    ["invalid but waived", { test: "invalid" as const, waived: true }, "pass"],
  ])("whose only test is %s stands as: %#", (_, change, verdict) => {
    expect(lotStanding([tested(1, 8, change)], PRODUCT).verdict).toBe(verdict);
  });

  test("takes no notice of a voided fail but keeps to every other", () => {
    const tests = [tested(1, 11, { voided: true }), tested(2, 8)];
    expect(lotStanding(tests, PRODUCT)).toMatchObject({ verdict: "pass", counted: [2], warnings: [] });
  });

  test("keeps a test in view that was corrected to another lot, and does not count it", () => {
    const tests = [tested(1, 11, { movedTo: "4472" }), tested(2, 8)];
    expect(lotStanding(tests, PRODUCT)).toMatchObject({
      verdict: "pass",
      counted: [2],
      warnings: ["no. 1 bore this lot and was corrected to lot 4472"],
    });
  });

  test("never gets better by one more test, unless its average decides", () => {
    const RANK = { fail: 0, "not judged": 1, borderline: 2, pass: 3, "no valid test": -1 };
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 20, noNaN: true }), { minLength: 2, maxLength: 6 }), (values) => {
        const tests = values.map((value, i) => tested(i + 1, value));
        const before = lotStanding(tests.slice(0, -1), PRODUCT).verdict;
        expect(RANK[lotStanding(tests, PRODUCT).verdict]).toBeLessThanOrEqual(RANK[before]);
      }),
    );
  });
});
