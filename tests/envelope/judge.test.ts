import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { judgeLimit, productVerdict } from "../../src/envelope/judge.ts";
import type { JudgedLimit, Limit, LimitResult } from "../../src/envelope/limit.ts";
import type { Decision } from "../../src/record/decision.ts";
import { determined, undetermined } from "../../src/record/determination.ts";

const SIMPLE: Decision = { rule: "simple" };
const on500 = (min: number | null, max: number | null): Limit => ({
  on: { kind: "passingPct", apertureUm: 500 },
  min,
  max,
});
const resultOf = (value: number, limit: Limit, decision = SIMPLE) =>
  judgeLimit(limit, determined(value, "%"), decision).result;

describe("a limit", () => {
  test.each([
    [75, "within"],
    [95, "within"],
    [74.999999, "below"],
    [95.000001, "above"],
    [80, "within"],
  ] as const)("of 75 to 95 is inclusive: %s is %s", (value, result) => {
    expect(resultOf(value, on500(75, 95))).toBe(result);
  });

  test("open on one side judges the other alone", () => {
    expect(resultOf(-1e9, on500(null, 3.1))).toBe("within");
    expect(resultOf(1e9, on500(2.3, null))).toBe("within");
    expect(resultOf(2.2, on500(2.3, null))).toBe("below");
  });

  test("nothing is rounded before the comparison unless the product says so", () => {
    expect(resultOf(95.04, on500(75, 95))).toBe("above");
    expect(resultOf(95.04, on500(75, 95), { rule: "simple", compare: "absolute" })).toBe("above");
  });

  // ASTM E29 rounding method (memory): round to the nearest step, ties to the even multiple, then compare.
  test.each([
    [95.04, 0.1, "within"],
    [95.06, 0.1, "above"],
    [95.5, 1, "above"],
    [94.5, 1, "within"],
    [74.5, 1, "below"],
    [75.4, 1, "within"],
  ] as const)("rounded to a step first: %s to %s is %s", (value, roundedTo, result) => {
    expect(resultOf(value, on500(75, 95), { rule: "simple", compare: { roundedTo } })).toBe(result);
  });

  test("shows the value as computed, not as rounded for the comparison", () => {
    const judged = judgeLimit(on500(75, 95), determined(95.04, "%"), { rule: "simple", compare: { roundedTo: 0.1 } });
    expect(judged.value).toBe(95.04);
  });

  test("on what is not determinable gives the reason and no value", () => {
    expect(judgeLimit(on500(75, 95), undetermined("no 500 um sieve"), SIMPLE)).toEqual({
      on: "passingPct@500",
      value: null,
      min: 75,
      max: 95,
      result: "not determinable",
      reason: "no 500 um sieve",
    });
  });

  test("tells what its value rests on", () => {
    expect(judgeLimit(on500(75, 95), determined(80, "%", ["read from the curve"]), SIMPLE).reason).toBe(
      "read from the curve",
    );
  });

  test("under a guarded decision without an uncertainty is never within, but what lies outside is told", () => {
    expect(resultOf(80, on500(75, 95), { rule: "guarded" })).toBe("not determinable");
    expect(resultOf(96, on500(75, 95), { rule: "guarded" })).toBe("above");
  });

  test("a value inside both limits never fails, one outside always does", () => {
    const bounds = fc.tuple(fc.double({ min: 0, max: 100, noNaN: true }), fc.double({ min: 0, max: 100, noNaN: true }));
    fc.assert(
      fc.property(bounds, fc.double({ min: -10, max: 110, noNaN: true }), ([a, b], value) => {
        const [min, max] = [Math.min(a, b), Math.max(a, b)];
        expect(resultOf(value, on500(min, max)) === "within").toBe(value >= min && value <= max);
      }),
    );
  });
});

const limits = (...results: LimitResult[]): JudgedLimit[] =>
  results.map((result) => ({ on: "passingPct@500", value: 1, min: 0, max: 1, result }));

describe("the product's verdict", () => {
  test.each([
    [limits("within", "within"), "pass"],
    [limits("within", "above"), "fail"],
    [limits("below", "not determinable"), "fail"],
    [limits("within", "not determinable"), "not judged"],
    [limits("borderline", "not determinable"), "not judged"],
    [limits("within", "borderline"), "borderline"],
    [limits("borderline", "below"), "fail"],
    [[], "not judged"],
  ] as const)("%#: from its limits", (judged, verdict) => {
    expect(productVerdict(judged, "valid")).toBe(verdict);
  });

  test("an invalid test proves nothing, neither good nor bad", () => {
    expect(productVerdict(limits("within"), "invalid")).toBe("not judged");
    expect(productVerdict(limits("above"), "invalid")).toBe("not judged");
  });

  test("an unchecked test is judged all the same: both verdicts stand side by side", () => {
    expect(productVerdict(limits("within"), "not checked")).toBe("pass");
  });

  test("is never pass while any limit is not within", () => {
    const result = fc.constantFrom<LimitResult>("within", "below", "above", "borderline", "not determinable");
    fc.assert(
      fc.property(
        fc.array(result, { minLength: 1, maxLength: 8 }),
        fc.constantFrom("valid", "not checked", "invalid"),
        (results, test) => {
          const verdict = productVerdict(limits(...results), test as "valid");
          if (verdict === "pass") expect(results.every((r) => r === "within")).toBe(true);
        },
      ),
    );
  });
});
