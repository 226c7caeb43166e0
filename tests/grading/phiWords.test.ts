import { describe, expect, test } from "vitest";
import { kurtosisWords, skewnessWords, sortingWords } from "../../src/grading/phiWords.ts";

describe("a value on a limit belongs to the lower class (CP-8)", () => {
  test.each([
    [0, "very well sorted"],
    [0.35, "very well sorted"],
    [0.351, "well sorted"],
    [0.5, "well sorted"],
    [0.71, "moderately well sorted"],
    [1, "moderately sorted"],
    [2, "poorly sorted"],
    [4, "very poorly sorted"],
    [4.01, "extremely poorly sorted"],
  ])("sorting %d is %s", (sorting, words) => expect(sortingWords(sorting)).toBe(words));

  test.each([
    [-1, "strongly coarse-skewed"],
    [-0.3, "strongly coarse-skewed"],
    [-0.29, "coarse-skewed"],
    [-0.1, "coarse-skewed"],
    [0, "near-symmetrical"],
    [0.1, "near-symmetrical"],
    [0.3, "fine-skewed"],
    [0.31, "strongly fine-skewed"],
  ])("skewness %d is %s", (skewness, words) => expect(skewnessWords(skewness)).toBe(words));

  test.each([
    [0.5, "very platykurtic"],
    [0.67, "very platykurtic"],
    [0.9, "platykurtic"],
    [1, "mesokurtic"],
    [1.11, "mesokurtic"],
    [1.5, "leptokurtic"],
    [3, "very leptokurtic"],
    [3.01, "extremely leptokurtic"],
  ])("kurtosis %d is %s", (kurtosis, words) => expect(kurtosisWords(kurtosis)).toBe(words));
});
