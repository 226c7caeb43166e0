import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readSheet } from "../../src/record/readSheet.ts";
import { type Sheet, SheetSchema } from "../../src/record/sheet.ts";
import { bytesOf, printSheetCsv } from "./printSheet.ts";

const read = (text: string) => {
  const found = readSheet(bytesOf(text));
  return found.ok ? found.value.sheet : found.reason;
};
const schema = "sievewright.sheet/1";
const weighed: Sheet = {
  schema,
  product: "TH-0510",
  lot: "4471-B",
  line: "Dryer 1",
  chargeG: 300.2,
  weighings: [
    { apertureUm: 1400, emptyG: 412.31, fullG: 418.02 },
    { apertureUm: 1000, emptyG: 398.74, fullG: 455.2 },
    { pan: true, emptyG: 354.1, fullG: 360.4 },
  ],
};

describe("a sheet as CSV", () => {
  test("keys, header, one row a sieve, the pan by its word", () =>
    expect(
      read(`# product: TH-0510
# lot: 4471-B
# line: Dryer 1
# charge_g: 300.20
aperture_um,empty_g,full_g
1400,412.31,418.02
1000,398.74,455.20
pan,354.10,360.40
`),
    ).toEqual(weighed));

  test("semicolons, decimal commas, mm, a byte-order mark, Windows line ends, quotes, spaces, blank lines", () =>
    expect(
      read(
        [
          "\uFEFF# product: TH-0510;;",
          "#lot:4471-B;;",
          '# line : "Dryer 1"',
          "# charge_g: 300,20;;",
          "",
          "aperture_mm;empty_g;full_g",
          ' "1,4" ; 412,31 ; 418.02',
          "1;398,74;455,2",
          ";;",
          "PAN;354,1;360,4;;",
          "",
        ].join("\r\n"),
      ),
    ).toEqual(weighed));

  test("net masses, serials, columns and rows in any order", () =>
    expect(read("sieve,net_g,aperture_um\n,6.3,pan\nS-1000-1,56.46,1000\nS-1400-1,5.71,1400\n")).toEqual({
      schema,
      weighings: [
        { pan: true, netG: 6.3 },
        { apertureUm: 1000, sieve: "S-1000-1", netG: 56.46 },
        { apertureUm: 1400, sieve: "S-1400-1", netG: 5.71 },
      ],
    }));

  test("washed mass and moisture; a remark without a colon; a key left blank", () =>
    expect(
      read("# invented data\n# lot:\n# washed_g: 290\n# moisture_pct: 1.5\naperture_um,net_g\n63,250\npan,40\n"),
    ).toEqual({
      schema,
      washedG: 290,
      moisturePct: 1.5,
      weighings: [
        { apertureUm: 63, netG: 250 },
        { pan: true, netG: 40 },
      ],
    }));

  test("a sieve by its name instead of its aperture, stored in um", () =>
    expect(read('aperture_um,net_g\nNo. 30,5\n"3/8 in.",6\n1.18 mm,7\npan,1\n')).toEqual({
      schema,
      weighings: [
        { apertureUm: 600, netG: 5 },
        { apertureUm: 9500, netG: 6 },
        { apertureUm: 1180, netG: 7 },
        { pan: true, netG: 1 },
      ],
    }));

  test("no pan row, if the charge is given", () =>
    expect(read("# charge_g: 300\naperture_um,net_g\n63,250\n")).toEqual({
      schema,
      chargeG: 300,
      weighings: [{ apertureUm: 63, netG: 250 }],
    }));

  test("an aperture in mm is the exact decimal in um", () =>
    expect(read("aperture_mm,net_g\n1.15,1\n0.0385,2\npan,3\n")).toMatchObject({
      weighings: [{ apertureUm: 1150 }, { apertureUm: 38.5 }, {}],
    }));

  test("with semicolons and no comma anywhere a point begins decimals", () =>
    expect(read("aperture_um;net_g\n63;1.234\npan;2.5\n")).toMatchObject({
      weighings: [{ netG: 1.234 }, { netG: 2.5 }],
    }));

  test("64 sieves and a pan", () => {
    const rows = Array.from({ length: 64 }, (_, i) => `${i + 1},1`).join("\n");
    expect(read(`aperture_um,net_g\n${rows}\npan,1\n`)).toMatchObject({ weighings: { length: 65 } });
  });
});

describe("each fault of a CSV sheet has its own message, with line and column", () => {
  const net = (...rows: string[]) => ["aperture_um,net_g", ...rows, ""].join("\n");
  const both = (...rows: string[]) => ["aperture_um,empty_g,full_g", ...rows, ""].join("\n");
  test.each([
    ["nothing", "", "is empty"],
    ["only white", "\n \n", "is empty"],
    ["no header", "# lot: 1\n", "has no header line: start with aperture_um,empty_g,full_g or aperture_um,net_g"],
    ["no row", net(), "line 1: no weighing stands below the header"],
    ["no pan row", net("63,1"), "the sheet has no pan row: add it, or give charge_g, then what is missing is the pan"],
    ["two pans", net("63,1", "pan,1", "pan,2"), "line 4: is a second pan: keep one"],
    ["only a pan", net("pan,1"), "the sheet has no sieve: add at least one"],
    [
      "aperture twice",
      net("63,1", "125,1", "63.0,2", "pan,1"),
      "line 4, aperture_um: is 63 um a second time: keep one row",
    ],
    ["aperture 0", net("63,1", "0,1"), "line 3, aperture_um: must be above 0; the pan is written as the word pan"],
    ["aperture below 0", net("-63,1"), "line 2, aperture_um: must be above 0; the pan is written as the word pan"],
    ["aperture of 2 m", net("2000000,1", "pan,1"), "line 2, aperture_um: must be at most 1000000"],
    ["a word", net("63,1", "125,abc"), 'line 3, net_g: "abc" is not a number'],
    ["a unit", net("63,1.5 g"), 'line 2, net_g: "1.5 g" is not a number'],
    ["an exponent", net("63,1e2"), 'line 2, net_g: "1e2" has an exponent: type it in full'],
    ["an empty cell", net("63,"), "line 2, net_g: nothing was entered"],
    [
      "another word for the pan",
      net("receiver,5"),
      'line 2, aperture_um: "receiver" names no aperture: write 600 um, 0.6 mm, No. 30 or 3/8 in.',
    ],
    [
      "a decimal comma",
      net('63,"1,5"'),
      'line 2, net_g: "1,5" has a decimal comma: type a point, or put ; between the columns',
    ],
    ["thousands", net('63,"1,234.5"'), 'line 2, net_g: "1,234.5" has two separators: type 1234.5'],
    ["a negative weighing", both("63,-1,5"), "line 2, empty_g: must be at least 0"],
    ["a mass of 20 t", both("63,1,20000000"), 'line 2, full_g: "20000000" has more than 7 digits before the decimals'],
    ["a cell too few", both("63,1,2", "125,3"), "line 3: has 2 columns, the header has 3"],
    ["a cell too many", both("63,1,2,3"), "line 2: has 4 columns, the header has 3"],
    [
      "a stray quote",
      net('63,1"2'),
      "line 2: has a quotation mark out of place: put quotes around the whole cell or leave them out",
    ],
    [
      "an open quote",
      net('"63,1', "125,2"),
      "line 2: has a quotation mark out of place: put quotes around the whole cell or leave them out",
    ],
    ["a late key", net("63,1", "# lot: 5"), "line 3: a line that begins with # stands only before the header"],
    [
      "an unknown column",
      "aperture_um,net_g,note\n",
      'line 1: unknown column "note": known are aperture_um, aperture_mm, empty_g, full_g, net_g, sieve',
    ],
    ["a nameless column", "aperture_um,net_g,\n", "line 1: column 3 has no name: remove it or name it"],
    [
      "tabs",
      "aperture_um\tnet_g\n",
      'line 1: unknown column "aperture_um?net_g": known are aperture_um, aperture_mm, empty_g, full_g, net_g, sieve',
    ],
    ["a column twice", "aperture_um,net_g,net_g\n", "line 1: the column net_g stands twice"],
    ["no masses", "aperture_um,empty_g\n", "line 1: needs the columns empty_g and full_g, or net_g"],
    [
      "both kinds of mass",
      "aperture_um,empty_g,full_g,net_g\n",
      "line 1: has net_g beside empty_g and full_g: keep either net_g or the two weighings",
    ],
    ["no apertures", "empty_g,full_g\n", "line 1: needs a column aperture_um or aperture_mm, one of the two"],
    [
      "both apertures",
      "aperture_um,aperture_mm,net_g\n",
      "line 1: needs a column aperture_um or aperture_mm, one of the two",
    ],
    [
      "an unknown key",
      `# charge: 5\n${net()}`,
      'line 1: unknown key "charge": known are product, lot, line, charge_g, washed_g, moisture_pct',
    ],
    [
      "a key of objects",
      `# toString: 5\n${net()}`,
      'line 1: unknown key "toString": known are product, lot, line, charge_g, washed_g, moisture_pct',
    ],
    ["a key twice", `# lot: 1\n\n# lot: 2\n${net()}`, "line 3: lot stands twice, the first time on line 1"],
    ["a charge of nothing", `# charge_g: 0\n${net("63,1")}`, "line 1, charge_g: must be above 0"],
    ["a charge in words", `#charge_g: 300 g\n${net("63,1")}`, 'line 1, charge_g: "300 g" is not a number'],
    ["a moisture below 0", `# moisture_pct: -1\n${net("63,1", "pan,1")}`, "line 1, moisture_pct: must be at least 0"],
    [
      "an escape in a text",
      `# lot: a\u001b[2Jb\n${net("63,1", "pan,1")}`,
      "line 1, lot: has control or broken characters",
    ],
    ["a NUL in a text", `# line: a\u0000\n${net("63,1", "pan,1")}`, "line 1, line: has control or broken characters"],
    ["a NUL in a number", net("63,1\u0000"), 'line 2, net_g: "1?" is not a number'],
    ["a long lot", `# lot: ${"x".repeat(41)}\n${net("63,1", "pan,1")}`, "line 1, lot: is longer than 40 characters"],
    [
      "a product of slashes",
      `# product: ../x\n${net("63,1", "pan,1")}`,
      "line 1, product: may hold letters, digits, dot, dash and underscore, at most 40",
    ],
    [
      "a serial with spaces",
      "aperture_um,net_g,sieve\n63,1,a b\npan,1,\n",
      "line 2, sieve: may hold letters, digits, dot, dash and underscore, at most 40",
    ],
  ])("%s", (_, text, reason) => expect(read(text)).toBe(reason));

  test("a point in a sheet that is seen to write commas has two readings before three digits", () =>
    expect(read("aperture_um;net_g\n63;1.234\n125;2,5\npan;1\n")).toBe(
      'line 2, net_g: "1.234" can be read in two ways: type 1234 or 1,234',
    ));

  test("more than 64 sieves: reading stops there, however long the file", () => {
    const rows = (n: number) => Array.from({ length: n }, (_, i) => `${i + 1},1`).join("\n");
    expect(read(`aperture_um,net_g\n${rows(65)}\n`)).toBe("the sheet has more than 64 sieves");
    expect(read(`aperture_um,net_g\n${rows(66)}\npan,1\n`)).toBe("line 67: has more than 64 sieves and a pan");
    expect(read(`aperture_um,net_g\n${rows(80_000)}\nabc,1\n`)).toBe("line 67: has more than 64 sieves and a pan");
  });

  test("more than 1 MiB", () =>
    expect(read(`aperture_um,net_g\n${"63,1\n".repeat(250_000)}`)).toBe(
      "is larger than 1 MiB: this is not a file for Sievewright",
    ));

  test("UTF-16, as some spreadsheet programs save", () => {
    const utf16 = new Uint8Array(
      new Uint16Array([0xfeff, ...[..."aperture_um,net_g"].map((c) => c.charCodeAt(0))]).buffer,
    );
    expect(readSheet(utf16)).toEqual({ ok: false, reason: "is not UTF-8 text: save it again as UTF-8" });
  });
});

describe("a sheet as JSON", () => {
  const json = (change: object) => read(JSON.stringify({ ...weighed, ...change }));
  const reason = (change: object) => String(json(change)).replace(/^line 1, column \d+: /, "");

  test("is read as it stands", () => expect(json({})).toEqual(weighed));

  test("net and double weighings may stand side by side", () => {
    const weighings = [
      { apertureUm: 500, netG: 5.71, sieve: "S-0500-2" },
      { pan: true, emptyG: 354.1, fullG: 360.4 },
    ];
    expect(json({ weighings })).toEqual({ ...weighed, weighings });
  });

  test.each([
    [{ weighings: [] }, "weighings must have at least 1 item"],
    [{ weighings: undefined }, "weighings is missing"],
    [{ weighings: {} }, "weighings must be a list [ ... ]"],
    [
      { weighings: [{ apertureUm: 63, netG: 1 }], chargeG: undefined },
      "weighings has no pan row: add it, or give chargeG, then what is missing is the pan",
    ],
    [
      { weighings: [{ apertureUm: 63 }] },
      "weighings[0] needs apertureUm (or pan: true) with emptyG and fullG, or with netG",
    ],
    [
      { weighings: [{ apertureUm: 63, netG: 1, emptyG: 1, fullG: 1 }] },
      "weighings[0] needs apertureUm (or pan: true) with emptyG and fullG, or with netG",
    ],
    [
      { weighings: [{ apertureUm: 63, pan: true, netG: 1 }] },
      "weighings[0] needs apertureUm (or pan: true) with emptyG and fullG, or with netG",
    ],
    [{ weighings: [5] }, "weighings[0] needs apertureUm (or pan: true) with emptyG and fullG, or with netG"],
    [{ weighings: [{ apertureUm: 0, netG: 1 }] }, "weighings[0].apertureUm must be above 0"],
    [{ weighings: [{ apertureUm: "63", netG: 1 }] }, "weighings[0].apertureUm must be a number"],
    [{ weighings: [{ apertureUm: 63, netG: null }] }, "weighings[0].netG must be a number"],
    [{ weighings: [{ apertureUm: 63, emptyG: -1, fullG: 2 }] }, "weighings[0].emptyG must be at least 0"],
    [{ weighings: [{ apertureUm: 63, netG: 1, note: "x" }] }, "weighings[0].note is an unknown field"],
    [{ weighings: [{ pan: false, netG: 1 }] }, "weighings[0].pan must be true"],
    [
      {
        weighings: [
          { apertureUm: 63, netG: 1 },
          { apertureUm: 63, netG: 1 },
        ],
      },
      "weighings[1].apertureUm is 63 um a second time: keep one row",
    ],
    [
      {
        weighings: [
          { pan: true, netG: 1 },
          { pan: true, netG: 1 },
        ],
      },
      "weighings[1] is a second pan: keep one",
    ],
    [{ chargeG: 0 }, "chargeG must be above 0"],
    [{ chargeG: "300" }, "chargeG must be a number"],
    [{ lot: "a\u0000b" }, "lot has control or broken characters"],
    [{ lot: "\ud800" }, "lot has control or broken characters"],
    [{ operator: "KO" }, "operator is an unknown field"],
    [
      { schema: "sievewright.sheet/2" },
      "schema is of version 2, made by a newer Sievewright: this one reads version 1",
    ],
    [{ schema: "sheet" }, 'schema must be "sievewright.sheet/1"'],
    [{ schema: undefined }, 'schema must be "sievewright.sheet/1"'],
  ])("%j", (change, message) => expect(reason(change)).toBe(message));

  test("a fault is told with its line and column", () =>
    expect(
      read('{ "schema": "sievewright.sheet/1",\n  "weighings": [\n    { "apertureUm": 63, "netG": "1" } ] }'),
    ).toBe("line 3, column 33: weighings[0].netG must be a number"));

  test.each([
    ["[]", "line 1, column 1: the sheet must be an object { ... }"],
    ["{", "line 1, column 2: the file ends where a field name in quotes or } is expected"],
    [`${'{"a":'.repeat(5000)}1`, "line 1, column 161: is nested more than 32 deep"],
    ['{"__proto__": {"schema": 1}}', 'line 1, column 2: the field name "__proto__" is not allowed'],
    ['{"schema": "\u0000"}', 'line 1, column 12: expected a value, found "?"}"'],
    ['{"constructor": 1}', 'line 1, column 1: schema must be "sievewright.sheet/1"'],
  ])("%.40s", (text, message) => expect(read(text)).toBe(message));

  test("more than 64 sieves", () => {
    const rows = (n: number) => Array.from({ length: n }, (_, i) => ({ apertureUm: i + 1, netG: 1 }));
    expect(reason({ weighings: rows(65) })).toBe("weighings has more than 64 sieves");
    expect(reason({ weighings: rows(66) })).toBe("weighings must have at most 65 items");
  });
});

const massG = fc.integer({ min: 0, max: 9_999_999 }).map((mg) => Number(`${mg}e-3`));
const serial = fc.option(fc.stringMatching(/^S-\d{1,4}$/), { nil: undefined });
const withSerial = <T extends object>(row: T, sieve: string | undefined) =>
  sieve === undefined ? row : { ...row, sieve };
const rowsOf = (masses: fc.Arbitrary<object>) =>
  fc
    .tuple(
      fc.uniqueArray(fc.integer({ min: 1, max: 99_999_999 }), { minLength: 1, maxLength: 20 }),
      fc.array(fc.tuple(masses, serial), { minLength: 21, maxLength: 21 }),
    )
    .map(([nanometres, cells]) => {
      const row = (where: object, i: number) => withSerial({ ...where, ...cells[i]?.[0] }, cells[i]?.[1]);
      const sieves = nanometres.map((nm, i) => row({ apertureUm: Number(`${nm}e-3`) }, i));
      return [...sieves, row({ pan: true }, nanometres.length)];
    });
const label = fc.string({ unit: "grapheme", maxLength: 20 }).filter((text) => text.length <= 40);
const anySheet = fc
  .record(
    {
      schema: fc.constant(schema),
      product: fc.stringMatching(/^TH-\d{1,4}$/),
      lot: label,
      line: fc.oneof(label, fc.constantFrom(" Dryer 1;", '"a"', ",,", "a: b # c", '""', ";;;")),
      chargeG: massG.filter((m) => m > 0),
      washedG: massG,
      moisturePct: fc.integer({ min: 0, max: 999 }),
      weighings: fc.oneof(rowsOf(fc.record({ netG: massG })), rowsOf(fc.record({ emptyG: massG, fullG: massG }))),
    },
    { requiredKeys: ["schema", "weighings"] },
  )
  .map((sheet) => SheetSchema.safeParse(sheet))
  .filter((parsed) => parsed.success)
  .map((parsed) => parsed.data);
const look = fc.record({
  separator: fc.constantFrom("," as const, ";" as const),
  comma: fc.boolean(),
  inMm: fc.boolean(),
  lineEnd: fc.constantFrom("\n", "\r\n", "\r"),
  bom: fc.boolean(),
});

test("whatever sheet is printed as CSV, in whatever look, it is read back the same", () =>
  fc.assert(
    fc.property(anySheet, look, (sheet, csv) => {
      expect(read(printSheetCsv(sheet, csv))).toEqual(sheet);
    }),
    { numRuns: 300 },
  ));

test("whatever sheet is printed as JSON, packed or spread, it is read back the same", () =>
  fc.assert(
    fc.property(anySheet, fc.constantFrom(0, 2), (sheet, indent) => {
      expect(read(JSON.stringify(sheet, null, indent))).toEqual(sheet);
    }),
  ));

test("a mebibyte of nothing but spaces, hashes, digits or quotes is refused at once", () => {
  const startedAt = performance.now();
  for (const filling of [" ", "# ", "#:", "1", "1 ", ",", '"', "\n#"]) {
    const body = filling.repeat(500_000);
    for (const text of [
      `#${body}`,
      `#${body}x\naperture_um,net_g\n`,
      `aperture_um,net_g\n${body}`,
      `[${body}`,
      `["${body}`,
    ])
      expect(typeof read(text)).toBe("string");
  }
  expect(performance.now() - startedAt).toBeLessThan(15_000);
});

test("never throws, whatever the bytes, and the reason is one line", () =>
  fc.assert(
    fc.property(
      fc.oneof(
        fc.uint8Array({ maxLength: 200 }),
        fc.string({ unit: "binary" }).map(bytesOf),
        fc.string({ unit: fc.constantFrom(..."#:;,\n\r\"'pan63.-eaperture_um,net_g{}[]") }).map(bytesOf),
      ),
      (bytes) => {
        const found = readSheet(bytes);
        if (!found.ok) expect(found.reason).toMatch(/^[^\p{Cc}]+$/u);
      },
    ),
    { numRuns: 1500 },
  ));

test("never throws on a spoiled sheet, and a sheet that is read is a sheet by its schema", () =>
  fc.assert(
    fc.property(
      anySheet,
      look,
      fc.boolean(),
      fc.nat(),
      fc.string({ unit: "binary", maxLength: 4 }),
      (sheet, csv, json, where, instead) => {
        const text = json ? JSON.stringify(sheet) : printSheetCsv(sheet, csv);
        const at = where % text.length;
        const found = readSheet(bytesOf(text.slice(0, at) + instead + text.slice(at + instead.length)));
        if (found.ok) expect(SheetSchema.safeParse(found.value.sheet).success).toBe(true);
        else expect(found.reason).toMatch(/^[^\p{Cc}]+$/u);
      },
    ),
    { numRuns: 500 },
  ));
