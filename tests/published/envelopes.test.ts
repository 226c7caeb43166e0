import { describe, expect, test } from "vitest";
import { assess } from "../../src/assess.ts";
import type { Product } from "../../src/record/product.ts";
import { readProduct } from "../../src/record/readExchanged.ts";

type Rows = readonly (readonly [designation: string, lower: number, upper: number])[];

/**
 * ASTM C33, grading requirements of concrete fine aggregate, with the fineness modulus of 2.3 to 3.1 (seen, in a
 * reproduction of the table; the 75 um limit differs with use, see the note of the third test).
 */
const C33_FINE: Rows = [
  ["3/8 in.", 100, 100],
  ["No. 4", 95, 100],
  ["No. 8", 80, 100],
  ["No. 16", 50, 85],
  ["No. 30", 25, 60],
  ["No. 50", 5, 30],
  ["No. 100", 0, 10],
  ["No. 200", 0, 3],
];

/**
 * Iowa Department of Transportation, Materials I.M. 209 Appendix D (April 2017), gradation 14, modified subbase: the
 * figures are seen; the copy had lost its column rules, so the sieve that each belongs to is recalled.
 */
const IOWA_14: Rows = [
  ["1 1/2 in.", 100, 100],
  ["3/4 in.", 70, 90],
  ["No. 8", 10, 40],
  ["No. 200", 3, 10],
];

function productOf(code: string, rows: Rows, values: object[] = []): Product {
  const envelope = rows.map(([apertureUm, min, max]) => ({ apertureUm, passingPct: { min, max } }));
  const file = {
    schema: "sievewright.product/1",
    code,
    name: code,
    revision: 1,
    stackUm: rows.map(([designation]) => designation),
    envelope,
    values,
  };
  const read = readProduct(new TextEncoder().encode(JSON.stringify(file)));
  if (!read.ok) throw new Error(read.reason);
  return read.value;
}

/** A sample whose passing % are these, coarsest first: its masses out of 1000 g. */
function judged(product: Product, passingPct: readonly number[]) {
  const sizes = [...product.stackUm, 0];
  const fractions = sizes.map((apertureUm, i) => {
    const above = i === 0 ? 100 : (passingPct[i - 1] ?? 0);
    const netG = 10 * (above - (apertureUm === 0 ? 0 : (passingPct[i] ?? 0)));
    return { apertureUm, emptyG: null, fullG: null, netG };
  });
  const assessed = assess({ fractions, chargeG: null, washedG: null }, product, { readabilityG: 0.1 });
  if (!assessed.ok) throw new Error(assessed.reason);
  return assessed.value;
}

const c33 = productOf("ASTM-C33", C33_FINE, [{ id: "finenessModulus", series: "astm", min: 2.3, max: 3.1 }]);
const middle = (rows: Rows) => rows.map(([, lower, upper]) => (lower + upper) / 2);
const lowers = (rows: Rows) => rows.map(([, lower]) => lower);
const uppers = (rows: Rows) => rows.map(([, , upper]) => upper);
const modulusOf = (passing: readonly number[]) => {
  const found = judged(c33, passing).values.finenessModulus;
  return found.determinable ? found.value : Number.NaN;
};

describe("ASTM C33 fine aggregate as an envelope", () => {
  test("names its sieves by number and inch; they are stored in um", () =>
    expect(c33.stackUm).toEqual([9500, 4750, 2360, 1180, 600, 300, 150, 75]));

  test("the middle of the envelope passes", () => expect(judged(c33, middle(C33_FINE)).verdict.product).toBe("pass"));

  // Computed from the table, not published: the envelope alone allows 2.15 to 3.45, so the modulus is a test of its own.
  test("its limiting curves lie within every passing limit, but their fineness modulus fails", () => {
    expect(modulusOf(lowers(C33_FINE))).toBeCloseTo(3.45, 10);
    expect(modulusOf(uppers(C33_FINE))).toBeCloseTo(2.15, 10);
    for (const [curve, result] of [
      [lowers(C33_FINE), "above"],
      [uppers(C33_FINE), "below"],
    ] as const) {
      const { limits, product } = judged(c33, curve).verdict;
      expect(limits.filter((l) => l.result !== "within").map((l) => [l.on, l.result])).toEqual([
        ["finenessModulus", result],
      ]);
      expect(product).toBe("fail");
    }
  });

  test("half a percent beyond any one limit fails on that sieve alone", () => {
    for (const [row, [, lower, upper]] of C33_FINE.entries()) {
      if (upper === 100) continue;
      const curve = middle(C33_FINE).map((pct, i) =>
        i === row ? upper + 0.5 : i < row ? Math.max(pct, upper + 0.5) : pct,
      );
      const { limits, product } = judged(c33, curve).verdict;
      expect(limits.find((l) => l.on === `passingPct@${c33.stackUm[row]}`)?.result).toBe("above");
      expect(product).toBe("fail");
      expect(lower).toBeLessThan(upper);
    }
  });
});

describe("Iowa DOT gradation 14 as an envelope", () => {
  const iowa = productOf("IOWA-14", IOWA_14);

  test("the middle and both limiting curves pass: limits are inclusive", () => {
    for (const curve of [middle(IOWA_14), lowers(IOWA_14), uppers(IOWA_14)]) {
      expect(judged(iowa, curve).verdict.product).toBe("pass");
    }
  });

  test("91 % through the 3/4 in. sieve fails there", () => {
    const { limits, product } = judged(iowa, [100, 91, 25, 6]).verdict;
    expect(limits.filter((l) => l.result !== "within")).toMatchObject([
      { on: "passingPct@19000", value: 91, result: "above" },
    ]);
    expect(product).toBe("fail");
  });

  test("a stack without the No. 8 sieve leaves that limit undeterminable, and nothing passes", () => {
    const short = { ...iowa, stackUm: iowa.stackUm.filter((um) => um !== 2360) };
    const { limits, product } = judged(short, [100, 80, 6]).verdict;
    expect(limits.find((l) => l.on === "passingPct@2360")).toMatchObject({ value: null, result: "not determinable" });
    expect(product).toBe("not judged");
  });
});
