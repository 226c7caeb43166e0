import { describe, expect, test } from "vitest";
import type { Product } from "../../src/record/product.ts";
import { VALUE_IDS } from "../../src/record/valueIds.ts";
import { pageTable } from "../../src/report/pageTable.ts";
import { pageValues } from "../../src/report/pageValues.ts";
import { assessed, product } from "./assessed.ts";

const SHEET = "TH-0510.csv";
const WIDTH = 80;
const rows = (change: Partial<Product>) => {
  const against = product("TH-0510", { envelope: [], values: [], ...change });
  return pageValues(assessed(SHEET, against), against, WIDTH);
};
const row = (change: Partial<Product>, label: string) => rows(change).find((line) => line.startsWith(label));

test("a size has its bounds in its own unit", () => {
  const values = [{ id: "percentileUm", passingPct: 90, min: 900, max: 1300 } as const];
  expect(row({ values }, "d90")).toMatch(/^d90 +1\.21 mm .* 0\.9 mm – 1\.3 mm {2}within ✓$/);
});

describe("limits without a place beside the table come first", () => {
  test("on what one sieve retains, and on all that is coarser", () => {
    const envelope = [
      { apertureUm: 500, retainedPct: { min: 40 } },
      { apertureUm: 1000, coarserPct: { max: 25 } },
    ];
    expect(rows({ envelope }).slice(0, 2)).toEqual([
      expect.stringMatching(/^coarser than 1\.00 mm +20\.73 % +±[\d.]+ {2}max 25 % {2}within ✓$/),
      expect.stringMatching(/^retained on 500 um +32\.81 % +±[\d.]+ {2}min 40 % {2}below ✗$/),
    ]);
  });

  test("on a sieve that the stack lacks, with the reason or with what it was read from", () => {
    const envelope = [{ apertureUm: 900, passingPct: { max: 80 } }];
    const [refused, why] = rows({ envelope });
    expect(refused).toMatch(/^passing 900 um .* not determinable \?$/);
    expect(why).toMatch(/^ {4}the stack has no 900 um sieve/);
    const [read, from] = rows({ envelope, method: { interpolateMissing: true } });
    expect(read).toMatch(/^passing 900 um +68\.\d\d % +±[\d.]+ {2}max 80 % {2}within ✓$/);
    expect(from).toMatch(/^ {4}900 um read from the curve/);
  });

  test("what stands beside the table already is not told twice", () => {
    const against = product("TH-0510", { values: [] });
    const assessment = assessed(SHEET, against);
    expect(pageTable(assessment, 2, 100).join("\n")).toMatch(/^710 um .*30 – 60 {2}within ✓$/m);
    expect(pageValues(assessment, against, WIDTH).join("\n")).not.toContain("passing");
  });
});

describe("values", () => {
  test("each in its own unit, its limits too", () => {
    const values: Product["values"] = [
      { id: "percentileUm", passingPct: 90, max: 1250 },
      { id: "effectiveSizeUm", min: 400 },
      { id: "relativeSpan", max: 1.5 },
    ];
    expect(row({ values }, "d90")).toMatch(/ 1\.21 mm +±0\.\d+ mm {2}max 1\.25 mm {2}within ✓$/);
    expect(row({ values }, "Effective size")).toMatch(/ 470 um +±\d+ {2}min 400 um {2}within ✓$/);
    expect(row({ values }, "Relative span")).toMatch(/ 0\.9\d\d +±[\d.]+ {2}max 1\.5 {2}within ✓$/);
  });

  test("a value that is asked for without a limit has none", () =>
    expect(row({ show: ["percentileUm@50"] }, "d50")).toMatch(/^d50 {2}748 um {2}±\d\d$/));

  test("a value that is asked for twice, by wish and by limit, stands once", () => {
    const values: Product["values"] = [{ id: "percentileUm", passingPct: 50, min: 690 }];
    expect(rows({ show: ["percentileUm@50"], values })).toEqual([
      expect.stringMatching(/^d50 {2}748 um {2}±\d\d {2}min 690 um {2}within ✓$/),
    ]);
  });

  test("what a value rests on stands below it", () => {
    const values: Product["values"] = [{ id: "finenessModulus", series: "astm", interpolateMissing: true }];
    const text = rows({ show: ["finenessModulus"], values }).join("\n");
    expect(text).toMatch(/^Fineness modulus/);
    expect(text).toMatch(/^ {4}\S/m);
  });

  test.each(VALUE_IDS)("%s can be asked for and is shown by its own word, found or not", (id) => {
    const [line, ...below] = rows({ show: [id] });
    expect(line).toMatch(/^[A-Z]/);
    expect(line).not.toContain(id);
    if (line?.trimEnd().endsWith("–")) expect(below.join(" ").trim()).not.toBe("");
    else expect(line).toMatch(/\d/);
  });

  test("without a product the usual ones are shown", () => {
    const text = pageValues(assessed(SHEET), null, WIDTH).join("\n");
    for (const label of ["d10", "d50", "d90"]) expect(text).toMatch(new RegExp(`^${label} `, "m"));
  });

  test("nothing asked for and nothing limited is nothing shown", () => expect(rows({ show: [] })).toEqual([]));
});

describe("the table", () => {
  const table = (sheet: string, against: Product | null = null, decimals = 2) =>
    pageTable(assessed(sheet, against), decimals, 100);

  test("has a row for each sieve, coarsest first, and the pan last", () =>
    expect(
      table(SHEET)
        .slice(2)
        .map((line) => line.split(/ {2,}/)[0]),
    ).toEqual(["1.40 mm", "1.00 mm", "710 um", "500 um", "355 um", "pan"]));

  test("has its heading right above its figures", () => {
    const [, heading = "", ...lines] = table(SHEET, product("TH-0510"));
    const end = heading.indexOf("passing") + "passing".length;
    for (const line of lines) expect(line.slice(0, end)).toMatch(/\d\.\d\d$/);
  });

  test("leaves out what is coarser where the width does not do: it is 100 % less what passes", () => {
    const against = product("TH-0510");
    const [, heading = "", first = ""] = pageTable(assessed(SHEET, against), 2, 60);
    expect(heading).not.toContain("coarser");
    expect(first).toMatch(/98\.10 +±\d\.\d\d {2}95 – 100/);
  });

  test("says how sure each sieve is, but by the ends of its interval where plus and minus would lie", () => {
    const density = product("TH-MAS", { envelope: [], values: [] });
    const rows = table("aperture_um,net_g\n1400,0.01\n500,60\n250,39.95\npan,0.04\n", density).slice(2);
    expect(rows[0]).toMatch(/ 99\.99 +99\.\d\d – 100\.00$/);
    expect(rows[1]).toMatch(/ 39\.99 +±\d+\.\d\d$/);
    expect(rows[2]).toMatch(/ 0\.04 +0\.00 – \d\.\d\d$/);
    expect(rows[3]).toMatch(/ 0\.00$/);
  });

  test("two sieves that lie close never read alike", () => {
    const lines = table("aperture_um,net_g\n1180,5\n1181,5\n1180.5,5\npan,5\n").slice(2);
    expect(lines.map((line) => line.split(/ {2,}/)[0])).toEqual(["1.181 mm", "1.1805 mm", "1.18 mm", "pan"]);
  });

  test("says envelope only if there is one beside it", () => {
    expect(table(SHEET)[1]).not.toContain("envelope");
    expect(table(SHEET, product("TH-0510"))[1]).toMatch(/ {2}envelope$/);
    expect(
      table(SHEET, product("TH-0510", { envelope: [{ apertureUm: 500, retainedPct: { max: 50 } }] }))[1],
    ).not.toContain("envelope");
  });

  test("figures are rounded on their own and left so, even if they do not add up", () => {
    const lines = table("aperture_um,net_g\n500,1\n250,1\npan,1\n").slice(2);
    expect(lines.map((line) => line.split(/ {2,}/).slice(2, 5))).toEqual([
      ["33.33", "33.33", "66.67"],
      ["33.33", "66.67", "33.33"],
      ["33.33", "100.00", "0.00"],
    ]);
  });
});
