import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { gainNotices } from "../../src/assess/gainNotices.ts";
import { anyFractions, graded, gradedOf } from "../grading/stack.ts";

describe("sieves that hold more than the charge", () => {
  test("are told on the charge as basis, with by how much, since passing % is held at 0 there", () => {
    expect(gainNotices(graded("1000:60 500:42 pan:3", { basis: "charge", chargeG: 100 }))).toEqual([
      {
        id: "passing-held-at-0",
        severity: "warning",
        text: "the sieves alone hold 2 g more than the charge: passing % that would be below 0 is shown as 0",
      },
    ]);
  });

  test("are no matter where only sieves and pan together do, or exactly reach it", () => {
    expect(gainNotices(graded("1000:60 500:40 pan:3", { basis: "charge", chargeG: 100 }))).toEqual([]);
    expect(gainNotices(graded("1000:60 500:39.99 pan:3", { basis: "charge", chargeG: 100 }))).toEqual([]);
  });

  test("are no matter of the recovered total, which is what they make up", () => {
    expect(gainNotices(graded("1000:60 500:42 pan:3", { basis: "recovered", chargeG: 100 }))).toEqual([]);
  });

  test("are told exactly where some passing % would be below 0", () => {
    fc.assert(
      fc.property(anyFractions, fc.double({ min: 0.5, max: 1.5, noNaN: true }), (fractions, share) => {
        const total = fractions.reduce((sum, f) => sum + f.netG, 0);
        const grading = gradedOf(fractions, { basis: "charge", chargeG: total * share });
        const sieves = fractions.filter((f) => f.apertureUm > 0).reduce((sum, f) => sum + f.netG, 0);
        if (Math.abs(sieves - total * share) < 1e-6 * total) return;
        expect(gainNotices(grading)).toHaveLength(sieves > total * share ? 1 : 0);
      }),
    );
  });
});
