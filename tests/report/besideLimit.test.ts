import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { judgeLimit } from "../../src/envelope/judge.ts";
import { determined } from "../../src/record/determination.ts";
import { besideLimit } from "../../src/report/besideLimit.ts";
import { pctText, sizeText } from "../../src/report/figures.ts";

const pct = (shown: number, more: number) => pctText(shown, 2 + more);
const atMost = (max: number) => ({ min: null, max, result: "above" as const });

describe("a number beside the limit that it misses", () => {
  test.each([
    [95.004, "95.004"],
    [95.00004, "95.00004"],
    [95.01, "95.01"],
    [99, "99.00"],
  ])("%d, at most 95, reads %s", (found, text) => expect(besideLimit(found, atMost(95), pct)).toBe(text));

  test("below the lower one likewise", () =>
    expect(besideLimit(689.7, { min: 690, max: 790, result: "below" }, sizeText)).toBe("689.7 um"));

  test("changes unit no sooner than it must", () =>
    expect(besideLimit(999.8, { min: 1000, max: null, result: "below" }, sizeText)).toBe("999.8 um"));

  test("within, or without any limit, has its usual digits", () => {
    expect(besideLimit(94.999, { min: null, max: 95, result: "within" }, pct)).toBe("95.00");
    expect(besideLimit(94.999, null, pct)).toBe("95.00");
  });
});

test("whatever misses a limit by 0.0000001 or more never reads like it", () =>
  fc.assert(
    fc.property(fc.double({ min: 0, max: 100, noNaN: true }), fc.integer({ min: 0, max: 100 }), (found, max) => {
      fc.pre(Math.abs(found - max) > 1e-7);
      const limit = judgeLimit({ on: { kind: "passingPct", apertureUm: 63 }, min: null, max }, determined(found, "%"), {
        rule: "simple",
      });
      const text = besideLimit(found, limit, pct);
      if (limit.result === "above") expect(Number(text)).toBeGreaterThan(max);
      else expect(text).toBe(pctText(found, 2));
    }),
  ));
