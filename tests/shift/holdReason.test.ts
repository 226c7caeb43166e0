import { describe, expect, test } from "vitest";
import type { JudgedLimit } from "../../src/envelope/limit.ts";
import { holdReason, releaseRefusal } from "../../src/shift/holdReason.ts";

const limit = (on: string, value: number | null, result: JudgedLimit["result"]): JudgedLimit => ({
  on,
  value,
  min: 10,
  max: 90,
  result,
});
const FAILED = [limit("passingPct@500", 92.1234, "above"), limit("d50", 50, "within"), limit("x", 9, "below")];
const ended = { test: "valid", product: "fail", limits: FAILED, disposition: "rework" } as const;

describe("a test puts its lot on hold", () => {
  test("when it fails, and says by which limits", () => {
    expect(holdReason(ended)).toBe("fail: passing 500 um 92.12 % is above 90 %; x 9 is below 10");
  });

  test("with sizes and their bounds in one unit, and digits that people read", () => {
    const d50 = { ...limit("percentileUm@50", 2759.4, "below"), min: 2900, max: 3150 };
    const passing = { ...limit("passingPct@500", 6.1009, "above"), min: null, max: 5 };
    const near = { ...limit("passingPct@710", 60.0004, "above"), min: null, max: 60 };
    expect(holdReason({ ...ended, limits: [passing, d50, near] })).toBe(
      "fail: passing 500 um 6.1 % is above 5 %; d50 2.76 mm is below 2.9 mm; passing 710 um 60.0004 % is above 60 %",
    );
  });

  test("when it is borderline", () => {
    const limits = [limit("passingPct@500", 89.9, "borderline")];
    expect(holdReason({ ...ended, product: "borderline", limits })).toBe(
      "borderline: passing 500 um 89.9 % is borderline",
    );
  });

  test("when its signer chooses so", () => {
    expect(holdReason({ ...ended, product: "pass", disposition: "hold" })).toBe(
      "put on hold when it was signed (product pass)",
    );
  });

  test.each([
    ["rejected at once", { disposition: "reject" as const }],
    ["invalid, which proves nothing", { test: "invalid" as const, disposition: "resample" as const }],
    ["passing", { product: "pass" as const, disposition: "release" as const }],
  ])("not when it is %s", (_, change) => {
    expect(holdReason({ ...ended, ...change })).toBeNull();
  });

  test("in words that stay short", () => {
    const limits = Array.from({ length: 7 }, (_, i) => limit(`v${i}`, 95, "above"));
    expect(holdReason({ ...ended, limits })).toMatch(/ and 3 more$/);
  });
});

describe("a release", () => {
  test.each([
    ["of a fail", { product: "fail" as const }, /fail is not released/],
    ["of a borderline result", { product: "borderline" as const }, /borderline result is not released/],
    ["on an invalid test", { test: "invalid" as const, product: "not judged" as const }, /proves nothing/],
  ])("%s is refused", (_, change, words) => {
    expect(
      releaseRefusal({ ...({ test: "valid", product: "pass" } as const), disposition: "release", ...change }),
    ).toMatch(words);
  });

  test("of a lot that is on hold is refused, whatever a later test of it says; anything else is not", () => {
    const passes = { test: "valid", product: "pass" } as const;
    expect(releaseRefusal({ ...passes, disposition: "release" }, false, { number: 12 })).toMatch(/on hold by no. 12/);
    expect(releaseRefusal({ ...passes, disposition: "hold" }, false, { number: 12 })).toBeNull();
  });

  test("of what passes is fine, and so is one on an invalid test that somebody waived; nothing else is its affair", () => {
    expect(releaseRefusal({ test: "valid", product: "pass", disposition: "release" })).toBeNull();
    expect(releaseRefusal({ test: "invalid", product: "pass", disposition: "release" }, true)).toBeNull();
    expect(releaseRefusal({ test: "valid", product: "fail", disposition: "hold" })).toBeNull();
  });
});
