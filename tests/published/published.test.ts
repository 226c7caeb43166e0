import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { kurtosisWords, skewnessWords, sortingWords } from "../../src/grading/phiWords.ts";
import { allChecks } from "./allChecks.ts";
import cem from "./examples/e-cem-iii-1-1.json" with { type: "json" };
import { publishedTable } from "./publishedTable.ts";
import { furthestOff, halfDigit, type PublishedCheck, published } from "./record.ts";

const checks = await allChecks();

test.each(checks)("$value: $source ($status)", (check) => {
  expect(published(check)).toBe(check);
});

test("docs/published-checks.md is what npm run docs:published writes", async () => {
  await expect(publishedTable(checks)).toMatchFileSnapshot(join(import.meta.dirname, "../../docs/published-checks.md"));
});

test("the words of the Coastal Engineering Manual's example III-1-1", () => {
  const { sorting_phi, skewness, kurtosis, words } = cem.expected;
  expect([sortingWords(sorting_phi), skewnessWords(skewness), kurtosisWords(kurtosis)]).toEqual(words.slice(1));
});

describe("a check can fail", () => {
  const check: PublishedCheck = {
    value: "d50",
    source: "a test",
    status: "generated",
    published: 1.25,
    ours: 1.2549,
    tolerance: 0.005,
  };
  const disagreement = { recomputed: 2, tolerance: 0.1, why: "misprint" };

  test("if ours is off by more than the printed digit allows", () => {
    expect(published(check)).toBe(check);
    expect(() => published({ ...check, ours: 1.2551 })).toThrow(/not within 0.005/);
    expect(() => published({ ...check, ours: Number.NaN })).toThrow();
  });

  test("if an explained disagreement is gone, or ours is neither figure", () => {
    expect(published({ ...check, ours: 2.05, disagreement })).toMatchObject({ ours: 2.05 });
    expect(() => published({ ...check, disagreement })).toThrow(/no more/);
    expect(() => published({ ...check, ours: 3, disagreement })).toThrow(/recomputed 2/);
  });

  test("for a column by its worst figure, whatever its place", () => {
    const rest = { value: "column", source: "a test", status: "generated", tolerance: 0.5 } as const;
    expect(furthestOff({ ...rest, published: [1, 2, 3], ours: [1.1, 2.4, 3.2] })).toMatchObject({
      published: 2,
      ours: 2.4,
    });
    expect(() => published(furthestOff({ ...rest, published: [1, 2], ours: [1, 2.6] }))).toThrow();
    expect(() => published(furthestOff({ ...rest, published: [1, 2], ours: [Number.NaN, 2] }))).toThrow();
    expect(() => furthestOff({ ...rest, published: [1, 2], ours: [1] })).toThrow(/2 figures against 1/);
  });

  test("half a step of the tenth digit of 2.608267717 is 5e-10", () => {
    expect(halfDigit(2.608267717)).toBeCloseTo(5e-10, 12);
  });
});
