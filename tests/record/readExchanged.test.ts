import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Product, ProductSchema } from "../../src/record/product.ts";
import { readProduct } from "../../src/record/readExchanged.ts";
import { VALUE_IDS } from "../../src/record/valueIds.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const filterSand = {
  schema: "sievewright.product/1",
  code: "TH-0510",
  name: "Filter sand 0.5-1.0 mm",
  revision: 3,
  stackUm: [1400, 1000, 710, 500, 355],
};
const reasonFor = (product: unknown) => {
  const read = readProduct(bytes(JSON.stringify(product, null, 2)));
  return read.ok ? "read" : read.reason;
};

test("five fields are enough", () =>
  expect(readProduct(bytes(JSON.stringify(filterSand)))).toEqual({ ok: true, value: filterSand }));

test("a byte-order mark and Windows line ends are passed over", () => {
  const text = `\uFEFF${JSON.stringify(filterSand, null, 2).replaceAll("\n", "\r\n")}`;
  expect(readProduct(bytes(text))).toEqual({ ok: true, value: filterSand });
});

test("sieves by name are stored in um", () => {
  const named = {
    ...filterSand,
    stackUm: ["No. 14", "1 mm", 500],
    envelope: [{ apertureUm: "No. 14", passingPct: { min: 95 } }],
  };
  const read = readProduct(bytes(JSON.stringify(named)));
  expect(read.ok && read.value).toMatchObject({ stackUm: [1400, 1000, 500], envelope: [{ apertureUm: 1400 }] });
});

test("a name that is no sieve's is refused with its place", () => {
  expect(reasonFor({ ...filterSand, stackUm: ["No. 15"] })).toContain("ASTM E11 has no sieve No. 15");
});

describe("what is wrong with a field is told with its line, column and path", () => {
  test.each([
    [{ revision: undefined }, "line 1, column 1: revision is missing"],
    [{ revision: 2.5 }, "line 5, column 15: revision must be a whole number"],
    [{ revision: 0 }, "line 5, column 15: revision must be above 0"],
    [{ name: 5 }, "line 4, column 11: name must be text in quotes"],
    [{ name: "" }, "line 4, column 11: name is empty"],
    [{ name: "x".repeat(81) }, "line 4, column 11: name is longer than 80 characters"],
    [{ name: "a\u001bb" }, "line 4, column 11: name has control or broken characters"],
    [{ code: "../x" }, "line 3, column 11: code may hold letters, digits, dot, dash and underscore, at most 40"],
    [{ stackUm: [] }, "line 6, column 14: stackUm must have at least 1 item"],
    [{ stackUm: [500, -1] }, "line 8, column 5: stackUm[1] must be above 0"],
    [{ stackUm: [500, 500] }, "line 6, column 14: stackUm names an aperture twice"],
    [{ stackUm: "500" }, "line 6, column 14: stackUm must be a list [ ... ]"],
    [{ effective: "2026-02-30" }, "line 13, column 16: effective is not a day like 2026-11-24"],
    [{ schema: "sievewright.sheet/1" }, 'line 2, column 13: schema must be "sievewright.product/1"'],
    [{ colour: "red" }, "line 13, column 13: colour is an unknown field"],
    [{ "a b": 1 }, 'line 13, column 10: "a b" is an unknown field'],
  ])("%j", (change, reason) => expect(reasonFor({ ...filterSand, ...change })).toBe(reason));

  const inside = (change: object) => reasonFor({ ...filterSand, ...change }).replace(/^line \d+, column \d+: /, "");
  test.each([
    [{ envelope: [{ apertureUm: 500 }] }, /^envelope\[0\] needs apertureUm and exactly one of passingPct, retainedPct/],
    [{ envelope: [{ apertureUm: 500, passingPct: {} }] }, /^envelope\[0\]\.passingPct needs min, max or both$/],
    [
      { envelope: [{ apertureUm: 500, passingPct: { max: 120 } }] },
      /^envelope\[0\]\.passingPct\.max must be at most 100$/,
    ],
    [
      { envelope: [{ apertureUm: 500, coarserPct: { min: "5" } }] },
      /^envelope\[0\]\.coarserPct\.min must be a number$/,
    ],
    [{ envelope: [{ apertureUm: 500, passingPct: { min: 60, max: 50 } }] }, /passingPct has its min above its max$/],
    [{ envelope: [{ apertureUm: 5, passingPct: { min: 1 }, x: 1 }] }, /^envelope\[0\]\.x is an unknown field$/],
    [
      { envelope: [{ apertureUm: 5, passingPct: { min: 1 }, coarserPct: { min: 1 } }] },
      /^envelope\[0\] needs apertureUm/,
    ],
    [{ values: [{ id: "d50" }] }, /^values\[0\]\.id is not known: "d50"$/],
    [{ values: [{ id: { toString: 1 } }] }, /^values\[0\]\.id is not known: "\{"toString":1\}"$/],
    [{ values: [{}] }, /^values\[0\]\.id is missing$/],
    [{ values: [{ id: "percentileUm" }] }, /^values\[0\]\.passingPct is missing$/],
    [{ values: [{ id: "percentileUm", passingPct: 100 }] }, /^values\[0\]\.passingPct must be below 100$/],
    [{ values: [{ id: "finenessModulus", series: "din" }] }, /^values\[0\]\.series must be "astm" or "en" or "feed"$/],
    [{ values: [{ id: "relativeSpan", min: 2, max: 1 }] }, /^values\[0\] has its min above its max$/],
    [{ method: { pan: "kept" } }, /^method\.pan must be "dropped" or \{ "sizeUm": \.\.\. \}$/],
    [{ method: { pan: { sizeUm: "44" } } }, /^method\.pan\.sizeUm must be a number$/],
    [{ method: { basis: "Charge" } }, /^method\.basis must be "recovered" or "charge"$/],
    [{ method: { chargeG: { min: 5, max: 4 } } }, /^method\.chargeG has its min above its max$/],
    [{ decision: { rule: "guarded", compare: { roundedTo: 0 } } }, /^decision\.compare\.roundedTo must be above 0$/],
    [{ decision: { rule: "simple", compare: "rounded" } }, /^decision\.compare must be "absolute" or \{ "roundedTo": /],
    [{ show: ["percentileUm@50", "D50"] }, /^show\[1\] must be the id of a characteristic value, or a percentile like/],
    [{ material: { sphericity: 1.2 } }, /^material\.sphericity must be at most 1$/],
  ])("%j", (change, reason) => expect(inside(change)).toMatch(reason));

  test("a number beyond all numbers", () => {
    const text = JSON.stringify(filterSand).replace('"revision":3', '"revision":1e999');
    expect(readProduct(bytes(text))).toEqual({
      ok: false,
      reason: "line 1, column 95: revision is too large for a number",
    });
  });
});

describe("what is wrong with the file as a whole", () => {
  test.each([
    ["", "is empty"],
    ["[]", "line 1, column 1: the file must be an object { ... }"],
    ["{", "line 1, column 2: the file ends where a field name in quotes or } is expected"],
    ['{\n "code": "A",\n}', 'line 3, column 1: expected a field name in quotes, found "}"'],
    ['{"code":"A","code":"B"}', 'line 1, column 13: the field "code" stands twice'],
  ])("%j", (text, reason) => expect(readProduct(bytes(text))).toEqual({ ok: false, reason }));

  test("bytes that are not UTF-8, as old spreadsheet programs write", () =>
    expect(readProduct(new Uint8Array([0x7b, 0xe4, 0x7d]))).toEqual({
      ok: false,
      reason: "is not UTF-8 text: save it again as UTF-8",
    }));

  test("more than a mebibyte", () =>
    expect(readProduct(new Uint8Array(1024 * 1024 + 1).fill(32))).toEqual({
      ok: false,
      reason: "is larger than 1 MiB: this is not a file for Sievewright",
    }));

  test("a version that only a newer program knows", () =>
    expect(reasonFor({ ...filterSand, schema: "sievewright.product/2", novelty: true })).toBe(
      "line 2, column 13: schema is of version 2, made by a newer Sievewright: this one reads version 1",
    ));
});

const limits = fc.record({ min: fc.integer({ min: 0, max: 50 }), max: fc.integer({ min: 50, max: 100 }) });
const anyProduct: fc.Arbitrary<Product> = fc
  .record(
    {
      schema: fc.constant("sievewright.product/1" as const),
      code: fc.stringMatching(/^[A-Z]{2}-\d{1,6}$/),
      name: fc.string({ minLength: 1, maxLength: 80 }),
      revision: fc.integer({ min: 1, max: 999 }),
      stackUm: fc.uniqueArray(fc.integer({ min: 1, max: 100_000 }), { minLength: 1, maxLength: 64 }),
      envelope: fc.array(fc.record({ apertureUm: fc.integer({ min: 1, max: 1e5 }), passingPct: limits })),
      values: fc.array(
        fc.record({
          id: fc.constant("percentileUm" as const),
          passingPct: fc.integer({ min: 1, max: 99 }),
          min: fc.nat(),
        }),
      ),
      show: fc.subarray([...VALUE_IDS]),
    },
    { requiredKeys: ["schema", "code", "name", "revision", "stackUm"] },
  )
  .filter((product) => ProductSchema.safeParse(product).success);

test("whatever product is written, it is read back the same", () =>
  fc.assert(
    fc.property(anyProduct, (product) => {
      expect(readProduct(bytes(JSON.stringify(product)))).toEqual({ ok: true, value: product });
    }),
  ));

test("never throws on a spoiled file, and says what is wrong on one line", () =>
  fc.assert(
    fc.property(fc.nat(), fc.string({ unit: "binary", maxLength: 5 }), fc.nat(40), (where, instead, gone) => {
      const whole = JSON.stringify({ ...filterSand, envelope: [{ apertureUm: 500, passingPct: { min: 1 } }] });
      const at = where % whole.length;
      const read = readProduct(bytes(whole.slice(0, at) + instead + whole.slice(at + gone)));
      if (!read.ok) expect(read.reason).toMatch(/^line \d+, column \d+: [^\p{Cc}]+$/u);
    }),
    { numRuns: 1000 },
  ));

test("a value asked for twice is refused: two fineness moduli of different series would be told apart by nobody", () => {
  const twice = [
    { id: "finenessModulus", series: "astm", max: 3 },
    { id: "finenessModulus", series: "en", max: 3 },
  ];
  expect(reasonFor({ ...filterSand, values: twice })).toContain("asks for a value twice");
});
