import { describe, expect, test } from "vitest";
import { type Findings, findFor } from "../../src/envelope/find.ts";
import { limitName, limitsOf } from "../../src/envelope/limit.ts";
import { choicesOf } from "../../src/grading/choices.ts";
import { grade } from "../../src/grading/grade.ts";
import { characteristicValues } from "../../src/grading/values/table.ts";
import type { Product } from "../../src/record/product.ts";
import { FILTER_SAND, NET_G } from "../run/hands.ts";

const fractions = [1400, 1000, 710, 500, 355, 0].map((apertureUm, i) => ({
  apertureUm,
  emptyG: null,
  fullG: null,
  netG: NET_G[i] ?? 0,
}));

function findings(interpolateMissing = false): Findings {
  const grading = grade(fractions, { basis: "recovered", chargeG: null, washedG: null });
  if (!grading.ok) throw new Error(grading.reason);
  const choices = choicesOf(FILTER_SAND, {});
  return { grading: grading.value, choices, values: characteristicValues(grading.value, choices), interpolateMissing };
}

const RECOVERED_G = 299.9;

describe("what a limit is put on", () => {
  test("an aperture of the stack is read from its own row", () => {
    const found = findFor({ kind: "passingPct", apertureUm: 1000 }, findings());
    expect(found.determinable && found.value).toBeCloseTo(100 - (100 * (5.71 + 56.46)) / RECOVERED_G, 10);
    const retained = findFor({ kind: "retainedPct", apertureUm: 1000 }, findings());
    expect(retained.determinable && retained.value).toBeCloseTo((100 * 56.46) / RECOVERED_G, 10);
    const coarser = findFor({ kind: "coarserPct", apertureUm: 1000 }, findings());
    expect(coarser.determinable && coarser.value).toBeCloseTo((100 * 62.17) / RECOVERED_G, 10);
  });

  test("an aperture that the stack lacks is not determinable unless the product allows reading it from the curve", () => {
    expect(findFor({ kind: "passingPct", apertureUm: 850 }, findings())).toEqual({
      determinable: false,
      reason: "the stack has no 850 um sieve and this product does not allow reading it from the curve",
    });
  });

  test("read from the curve it lies between its neighbours and says that it was read", () => {
    const found = findFor({ kind: "passingPct", apertureUm: 850 }, findings(true));
    expect(found.determinable && found.value).toBeGreaterThan(41);
    expect(found.determinable && found.value).toBeLessThan(80);
    expect(found.determinable && found.assumptions?.join()).toContain("read from the curve");
    const coarser = findFor({ kind: "coarserPct", apertureUm: 850 }, findings(true));
    expect(found.determinable && coarser.determinable && found.value + coarser.value).toBeCloseTo(100, 10);
  });

  test("what an absent sieve would have retained nobody can know", () => {
    expect(findFor({ kind: "retainedPct", apertureUm: 850 }, findings(true)).determinable).toBe(false);
  });

  test("nothing is read beyond the sieves, allowed or not", () => {
    expect(findFor({ kind: "passingPct", apertureUm: 63 }, findings(true)).determinable).toBe(false);
    expect(findFor({ kind: "passingPct", apertureUm: 5600 }, findings(true)).determinable).toBe(false);
  });

  test("a percentile and a characteristic value", () => {
    const d50 = findFor({ kind: "percentileUm", passingPct: 50 }, findings());
    expect(d50.determinable && d50.value).toBeGreaterThan(710);
    expect(findFor({ kind: "value", id: "uniformityCoefficient" }, findings())).toEqual(
      findings().values.uniformityCoefficient,
    );
  });
});

describe("the limits of a product", () => {
  const product: Product = {
    ...FILTER_SAND,
    envelope: [
      { apertureUm: 500, retainedPct: { max: 40 } },
      { apertureUm: 1400, passingPct: { min: 95 } },
      { apertureUm: 710, coarserPct: { min: 40, max: 70 } },
    ],
    values: [
      { id: "finenessModulus", series: "astm" },
      { id: "percentileUm", passingPct: 50, min: 690 },
      { id: "relativeSpan", max: 1 },
    ],
  };

  test("come coarsest first, then on values in the product's order; a value only asked for is no limit", () => {
    expect(limitsOf(product).map((limit) => limitName(limit.on))).toEqual([
      "passingPct@1400",
      "coarserPct@710",
      "retainedPct@500",
      "percentileUm@50",
      "relativeSpan",
    ]);
  });

  test("keep their bounds, null where a side is open", () => {
    expect(limitsOf(product).map(({ min, max }) => [min, max])).toEqual([
      [95, null],
      [40, 70],
      [null, 40],
      [690, null],
      [null, 1],
    ]);
  });

  test("of a product without envelope are none", () => {
    expect(limitsOf({ ...product, envelope: undefined, values: undefined } as Product)).toEqual([]);
  });
});
