import { expect, test } from "vitest";
import { productPage } from "../../src/report/productPage.ts";
import { product } from "./assessed.ts";

test("one revision as a page: stack, method, limits, each in its unit", () =>
  expect(productPage(product("TH-PG3", { effective: "2026-06-15" }))).toBe(`TH-PG3  Polymer granules 3 mm (invented)
revision 1, in force from 2026-06-15, approved by SB

stack      4.00 mm, 3.35 mm, 2.80 mm, 2.36 mm, 2.00 mm and pan
charge     200 (150 – 250) g
loss       max 0.2 %
program    TH-C08
empties    sieves weighed empty each shift
basis      recovered

retained on 4.00 mm  max 3 %
passing 2.36 mm      max 5 %
passing 2.00 mm      max 0.5 %
d50                  2.90 mm – 3.15 mm
Relative span        max 0.4
`));

test("what a product leaves open is left out, and without limits it says what that means", () => {
  const { schema, code, name, revision, stackUm } = product("TH-MAS");
  expect(productPage({ schema, code, name, revision, stackUm: [63, 125] })).toBe(`TH-MAS  Masonry sand (invented)
revision 2

stack      125 um, 63 um and pan

no limits: tests are assessed, not judged
`);
  expect(stackUm).toHaveLength(7);
});

test("a charge with only a target or only bounds", () => {
  const charge = (chargeG: object) => /^charge.*$/m.exec(productPage(product("TH-MAS", { method: { chargeG } })))?.[0];
  expect(charge({ target: 300 })).toBe("charge     300 g");
  expect(charge({ max: 500 })).toBe("charge     max 500 g");
});

test("a name can't draw on the terminal", () =>
  expect(productPage(product("TH-MAS", { name: "a\u202eb" }))).not.toContain("\u202e"));
