import { describe, expect, test } from "vitest";
import { INTERPOLATIONS } from "../../src/record/product.ts";
import { conventions } from "../../src/report/conventions.ts";
import { boundsText, PRODUCT_WORDS, RESULT_WORDS, TEST_WORDS } from "../../src/report/verdictWords.ts";
import { assessed, product } from "./assessed.ts";

const SHEET = "TH-0510.csv";
const told = (change: Parameters<typeof product>[1] | null = null, choices: Parameters<typeof assessed>[2] = {}) => {
  const against = change === null ? null : product("TH-0510", change);
  return conventions(assessed(SHEET, against, choices), against);
};

describe("what the numbers rest on is told, also where it is the default", () => {
  test("the basis", () => {
    expect(told()[0]).toBe("Percentages are of the recovered total, by mass.");
    expect(told(null, { basis: "charge" })[0]).toBe(
      "Percentages are of the charge as weighed, by mass; what was lost counts as passing.",
    );
  });

  test("how the curve is read between sieves, in different words for each way", () => {
    const sentences = INTERPOLATIONS.map((interpolation) => told(null, { interpolation })[1]);
    expect(new Set(sentences).size).toBe(INTERPOLATIONS.length);
    for (const sentence of sentences)
      expect(sentence).toMatch(/^Between sieves passing % is read .*; nothing is read beyond them\.$/);
  });

  test("how limits are compared, only where something was judged", () => {
    expect(told().join(" ")).not.toContain("Limits are inclusive");
    expect(told({ envelope: [], values: [] }).join(" ")).not.toContain("Limits are inclusive");
    expect(told({})).toContain("Limits are inclusive; values are compared as computed, unrounded; simple acceptance.");
    expect(told({ decision: { rule: "simple", compare: { roundedTo: 1 } } })).toContain(
      "Limits are inclusive; values are compared rounded to 1, half to even; simple acceptance.",
    );
    expect(told({ decision: { rule: "guarded" } }).join(" ")).toContain(
      "guarded acceptance with a guard band of 1.645 u (U = 2 u).",
    );
    const both = { rule: "guarded", guards: "both", guard: { r: 0.5 }, side: "max" } as const;
    expect(told({ decision: both }).join(" ")).toContain(
      "guarded acceptance and rejection with a guard band of 0.5 U (U = 2 u), at the upper end of a limit with two.",
    );
    const envelope = [{ apertureUm: 500, passingPct: { max: 20 }, decision: { rule: "guarded" } as const }];
    expect(told({ envelope }).join(" ")).toContain("simple acceptance; some limits have a rule of their own.");
  });

  test("the product's own choices are those that are told", () =>
    expect(told({ method: { basis: "charge", interpolation: "linear" } }).join(" ")).toMatch(
      /of the charge.*\(linear\)/,
    ));

  test("a pass is no certificate", () =>
    expect(told().at(-1)).toBe("A pass here is no certificate of any law or licence."));
});

describe("a state has a word and a sign", () => {
  const words = [...Object.values(TEST_WORDS), ...Object.values(PRODUCT_WORDS), ...Object.values(RESULT_WORDS)];

  test.each(words)("%s", (word) => expect(word).toMatch(/^[A-Za-z ]{4,} [^A-Za-z ]$/u));

  test("and no two states of one kind share either", () => {
    for (const kind of [TEST_WORDS, PRODUCT_WORDS]) {
      const said = Object.values(kind);
      expect(new Set(said.map((word) => word.at(-1))).size).toBe(said.length);
      expect(new Set(said).size).toBe(said.length);
    }
  });

  test("a missed limit says on which side", () =>
    expect([RESULT_WORDS.below, RESULT_WORDS.above]).toEqual(["below ✗", "above ✗"]));
});

test.each([
  [{ min: 75, max: 95 }, "75 – 95"],
  [{ min: 90, max: null }, "min 90"],
  [{ min: null, max: 3.1 }, "max 3.1"],
  [{ min: 0, max: 0 }, "0 – 0"],
  [{ min: -0.5, max: 0.5 }, "-0.5 – 0.5"],
  [{ min: null, max: null }, ""],
])("bounds %j read %j", (bounds, text) => expect(boundsText(bounds, String)).toBe(text));
