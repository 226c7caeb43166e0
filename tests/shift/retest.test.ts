import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Product } from "../../src/record/product.ts";
import type { LotTest } from "../../src/shift/lotTest.ts";
import { limitsTogether } from "../../src/shift/lotTogether.ts";
import { retestsAmong, retestWarnings, retestWays } from "../../src/shift/retest.ts";

type Rule = NonNullable<NonNullable<Product["method"]>["retest"]>;

const product = (retest?: Rule) => ({ code: "TH-0510", revision: 3, ...(retest ? { method: { retest } } : {}) });
const BOTH: Rule = { ways: ["second portion", "resample"], atMost: 2 };

const tested = (number: number, verdict: LotTest["product"], change: Partial<LotTest> = {}): LotTest => ({
  number,
  at: `2026-11-25T0${number % 10}:00:00+01:00`,
  test: "valid",
  product: verdict,
  limits: [],
  voided: false,
  waived: false,
  ...change,
});
const resample = (number: number, verdict: LotTest["product"], of = 1) =>
  tested(number, verdict, { retest: { way: "resample", number: of } });
const numbers = (tests: readonly LotTest[]) => tests.map(({ number }) => number);

describe("what counts as a retest", () => {
  test("further tests of a lot within its limits are none, whatever their number", () => {
    expect(retestsAmong([tested(1, "pass"), tested(2, "pass"), tested(3, "pass")])).toEqual([]);
  });

  test("whatever was tested after a result out of limits is one, and so is what was set out as one", () => {
    expect(numbers(retestsAmong([tested(1, "pass"), tested(2, "borderline"), tested(3, "pass")]))).toEqual([3]);
    expect(numbers(retestsAmong([tested(1, "pass"), resample(2, "pass")]))).toEqual([2]);
  });

  test("what stands in for an invalid test, which does not count, is none", () => {
    expect(retestsAmong([resample(2, "pass")])).toEqual([]);
  });
});

describe("how a lot may be tested again", () => {
  const failed = [tested(1, "fail")];

  test("is what the method names", () => {
    expect(retestWays(failed, product({ ways: ["resample"] }), 0)).toEqual({ ok: true, value: ["resample"] });
  });

  test("is not at all where the method names nothing", () => {
    expect(retestWays(failed, product(), 0)).toMatchObject({ ok: false, reason: /names no retest.*quality/ });
  });

  test("ends with the number that the method allows, those set out and not recorded yet among them", () => {
    expect(retestWays([...failed, resample(2, "fail")], product(BOTH), 0).ok).toBe(true);
    const reason = "the method of TH-0510 rev 3 allows 2 retests and there are 2";
    expect(retestWays([...failed, resample(2, "fail"), resample(3, "pass")], product(BOTH), 0)).toEqual({
      ok: false,
      reason,
    });
    expect(retestWays([...failed, resample(2, "fail")], product(BOTH), 1)).toEqual({ ok: false, reason });
  });

  test("is free while no test of it proves anything, for a product without a rule too", () => {
    const invalid = [tested(1, "not judged", { test: "invalid" }), tested(2, "fail", { voided: true })];
    expect(retestWays(invalid, product(), 0)).toEqual({ ok: true, value: ["second portion", "resample"] });
    expect(retestWays(invalid, product({ ways: ["resample"] }), 3)).toEqual({ ok: true, value: ["resample"] });
  });

  test("needs a test to repeat", () => {
    expect(retestWays([], product(BOTH), 0)).toMatchObject({ ok: false, reason: /no test of this lot/ });
  });

  test("never goes on until it passes: so many retests as are allowed, whatever they say", () => {
    const verdict = fc.constantFrom<LotTest["product"]>("pass", "fail", "borderline");
    fc.assert(
      fc.property(fc.array(verdict, { maxLength: 12 }), fc.integer({ min: 1, max: 5 }), (verdicts, atMost) => {
        let tests: readonly LotTest[] = failed;
        for (const one of verdicts)
          if (retestWays(tests, product({ ways: ["resample"], atMost }), 0).ok)
            tests = [...tests, resample(tests.length + 1, one)];
        expect(tests.length - 1).toBe(Math.min(verdicts.length, atMost));
      }),
    );
  });
});

describe("what is told of retests", () => {
  test("nothing where each says how it came about and the method names that", () => {
    expect(retestWarnings([tested(1, "fail"), resample(2, "pass")], BOTH)).toEqual([]);
  });

  test("a way that the method does not name, and tests that name none", () => {
    const second = tested(2, "pass", { retest: { way: "second portion", number: 1 } });
    expect(retestWarnings([tested(1, "fail"), second, tested(3, "pass")], { ways: ["resample"] })).toEqual([
      "no. 2 is a second portion, which the product's method does not name",
      "not told whether second portion or resample: no. 3",
    ]);
  });
});

describe("results of a lot side by side", () => {
  const limit = (on: string, value: number, result: "within" | "above") => ({ on, value, min: null, max: 10, result });

  test("one row a limit, what some test missed first, a gap where a test was not judged by it", () => {
    const first = tested(1, "pass", { limits: [limit("passingPct@1000", 5, "within")] });
    const second = tested(2, "fail", {
      limits: [limit("passingPct@1000", 6, "within"), limit("passingPct@500", 12, "above")],
    });
    expect(limitsTogether([first, second])).toMatchObject([
      { on: "passingPct@500", max: 10, met: false, found: [null, { value: 12 }] },
      { on: "passingPct@1000", met: true, found: [{ value: 5 }, { value: 6 }] },
    ]);
  });

  test("leave no test and no limit out", () => {
    const value = fc.double({ min: 0, max: 20, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.dictionary(fc.constantFrom("a", "b", "c"), value), { maxLength: 6 }), (found) => {
        const tests = found.map((values, i) =>
          tested(i + 1, "pass", {
            limits: Object.entries(values).map(([on, v]) => limit(on, v, v > 10 ? "above" : "within")),
          }),
        );
        const rows = limitsTogether(tests);
        const cells = rows.flatMap((row) => row.found.filter((one) => one !== null));
        expect(cells).toHaveLength(found.reduce((sum, values) => sum + Object.keys(values).length, 0));
        expect(rows.every((row) => row.found.length === tests.length)).toBe(true);
      }),
    );
  });
});
