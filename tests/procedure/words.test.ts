import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isAbove, isBelow } from "../../src/procedure/compare.ts";
import { durationWords, listed, massWords, pctWords, sieveWords } from "../../src/procedure/wording.ts";

describe("comparing with a limit", () => {
  test("the limit itself is neither above nor below, binary noise or not", () => {
    expect(isAbove(0.1 + 0.2, 0.3)).toBe(false);
    expect(isBelow(1 - 0.9, 0.1)).toBe(false);
    expect(isAbove(300.2 - 299.9, 0.3)).toBe(false);
    expect(isAbove(1000.3 - 1000, 0.3)).toBe(false);
  });

  test("a thousandth of a gram beyond it is", () => {
    expect(isAbove(0.301, 0.3)).toBe(true);
    expect(isBelow(0.299, 0.3)).toBe(true);
  });

  test("a figure is never both above and below", () =>
    fc.assert(
      fc.property(fc.double({ noNaN: true }), fc.double({ noNaN: true }), (figure, limit) => {
        expect(isAbove(figure, limit) && isBelow(figure, limit)).toBe(false);
      }),
    ));
});

describe("words for the operator", () => {
  test.each([
    [0, "0.000 g"],
    [0.05, "0.050 g"],
    [5.71, "5.71 g"],
    [56.46, "56.46 g"],
    [140.2, "140.2 g"],
    [999.96, "1000.0 g"],
    [5000, "5000 g"],
    [-2.1, "-2.10 g"],
  ])("%d g is %s", (massG, words) => expect(massWords(massG)).toBe(words));

  test("get more decimals where they would read like the limit beside them", () => {
    expect(massWords(299.96, 300)).toBe("299.96 g");
    expect(massWords(300, 300)).toBe("300.0 g");
    expect(pctWords(0.3004, 0.3)).toBe("0.3004 %");
    expect(pctWords(0.74, 0.3)).toBe("0.74 %");
    expect(pctWords(0.3, 0.3)).toBe("0.30 %");
    expect(pctWords(0.300000000001, 0.3)).toBe("0.300000 %");
  });

  test.each([
    [[], ""],
    [["the pan"], "the pan"],
    [["a", "b"], "a and b"],
    [["a", "b", "c"], "a, b and c"],
  ])("%j is listed as %j", (words, sentence) => expect(listed(words)).toBe(sentence));

  test.each([
    [0, "0 s"],
    [0.4, "0 s"],
    [59.6, "1 min"],
    [90, "1 min 30 s"],
    [600, "10 min"],
    [3600, "1 h"],
    [3900, "1 h 5 min"],
  ])("%d s is %s", (seconds, words) => expect(durationWords(seconds)).toBe(words));

  test("name the sieve as it is marked, and the pan", () => {
    expect(sieveWords(710)).toBe("the 710 um sieve");
    expect(sieveWords(1400)).toBe("the 1.40 mm sieve");
    expect(sieveWords(0)).toBe("the pan");
  });
});
