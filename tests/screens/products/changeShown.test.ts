import { expect, test } from "vitest";
import { productDiff } from "../../../src/envelope/revisions/productDiff.ts";
import { changeShown } from "../../../src/screens/products/changeShown.ts";
import { FULL_PRODUCT } from "../../envelope/revisions/fullProduct.ts";
import { inLanguage } from "../../words/tongues.ts";

const BARE = { schema: FULL_PRODUCT.schema, code: "P", name: "n", revision: 1, stackUm: [1000, 500] };
const changes = productDiff(BARE, FULL_PRODUCT);

test("a change reads in English as the comparison has it", () =>
  expect(changes.map(changeShown)).toEqual(changes.map(({ words }) => words)));

test("every change of a product that states every field is told in another language", async () => {
  for (const language of ["de", "es"] as const) {
    const told = await inLanguage(language, () => changes.map(changeShown));
    const same = changes.flatMap(({ words }, i) => (told[i] === words ? [words] : []));
    expect(same).toEqual([]);
    expect(told.filter((words) => /not stated|by the rule set|method:|test rules|removed|added/.test(words))).toEqual(
      [],
    );
  }
});

test("what a person wrote stays as it was written", async () => {
  const told = await inLanguage("de", () => changes.map(changeShown));
  expect(told).toContain('Name: "n" -> "Filter sand (invented)"');
  expect(told).toContain('Grund: keine -> "finer sand asked for"');
});
