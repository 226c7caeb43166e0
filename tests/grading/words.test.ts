import { expect, test } from "vitest";
import { listWords, pctWords, sizeWords } from "../../src/grading/words.ts";

test.each([
  [14, "14 %"],
  [14.26, "14.3 %"],
  [0.05, "0.1 %"],
  [0.02, "less than 0.1 %"],
  [0, "0 %"],
  [99.97, "100 %"],
])("%d percent reads %s", (pct, words) => expect(pctWords(pct)).toBe(words));

test.each([
  [31.5, "31.5 um"],
  [742.4, "742 um"],
  [999.6, "1.00 mm"],
  [1190, "1.19 mm"],
  [0.0625, "0.0625 um"],
])("a size of %d um reads %s", (sizeUm, words) => expect(sizeWords(sizeUm)).toBe(words));

test("lists read as a person writes them", () => {
  expect([[], ["a"], ["a", "b"], ["a", "b", "c"]].map(listWords)).toEqual(["", "a", "a and b", "a, b and c"]);
});
