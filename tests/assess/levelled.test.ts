import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { levelled, rowName } from "../../src/assess/levelled.ts";
import { fraction, fractionsOf } from "../grading/stack.ts";

describe("fractions lighter than nothing", () => {
  test("by what the balance reads at most become nothing, each with a note; the others stay as they are", () => {
    const level = levelled(fractionsOf("1000:-0.01 500:3.2 250:-0.005 pan:1"), 0.01);
    expect(level).toMatchObject({
      ok: true,
      value: { fractions: fractionsOf("1000:0 500:3.2 250:0 pan:1") },
    });
    expect(level.ok && level.value.notices.map((notice) => [notice.id, notice.severity])).toEqual([
      ["below-empty", "note"],
      ["below-empty", "note"],
    ]);
  });

  test("by more are refused, whatever else was weighed, and the first of them is named", () => {
    expect(levelled(fractionsOf("1000:-0.005 500:-3.2 250:-4 pan:1"), 0.01)).toEqual({
      ok: false,
      reason: "the 500 um sieve is 3.2 g lighter full than empty: weigh it again",
    });
    expect(levelled(fractionsOf("1000:3 pan:-0.02"), 0.01).ok).toBe(false);
  });

  test("are none in most tests: the same fractions, and no note", () => {
    const fractions = fractionsOf("1000:3 500:0 pan:0.01");
    expect(levelled(fractions, 0.01)).toEqual({ ok: true, value: { fractions, notices: [] } });
  });

  test("whatever is weighed: refused, or nothing is left below zero and no other fraction is touched", () => {
    const anyFractions = fc.array(
      fc.double({ min: -1, max: 100, noNaN: true }).map((netG) => fraction(500, netG + 0)),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(anyFractions, fc.constantFrom(0.001, 0.01, 0.1, 1), (fractions, readabilityG) => {
        const level = levelled(fractions, readabilityG);
        expect(level.ok).toBe(fractions.every((f) => f.netG >= -readabilityG));
        if (!level.ok) return;
        for (const [i, f] of level.value.fractions.entries()) expect(f.netG).toBe(Math.max(0, fractions[i]?.netG ?? 0));
        expect(level.value.notices).toHaveLength(fractions.filter((f) => f.netG < 0).length);
      }),
    );
  });
});

test("a row is spoken of by its aperture, or as the pan", () => {
  expect([1400, 500, 63, 0].map(rowName)).toEqual([
    "the 1.40 mm sieve",
    "the 500 um sieve",
    "the 63 um sieve",
    "the pan",
  ]);
});
