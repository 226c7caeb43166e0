import { describe, expect, test } from "vitest";
import { sheetKeys } from "../../src/record/sheetKeys.ts";
import { numberStyle, sheetNumber } from "../../src/record/sheetNumber.ts";

const keys = (text: string, separator: "," | ";" = ",", columns = 3) => {
  const lines = text.split("\n").map((line, i) => ({ number: i + 1, text: line }));
  const read = sheetKeys(lines, numberStyle(text, separator), columns);
  return read.ok ? read.value.fields : read.reason;
};

describe("the lines before the header", () => {
  test("set what they name, each text as it stands", () =>
    expect(
      keys(
        "# product: TH-0510\n#lot:4471-B\n#   line  :   Dryer 1  \n# charge_g: 300.20\n# washed_g: 290\n# moisture_pct: 4",
      ),
    ).toEqual({
      product: "TH-0510",
      lot: "4471-B",
      line: "Dryer 1",
      chargeG: 300.2,
      washedG: 290,
      moisturePct: 4,
    }));

  test("a value may hold colons, hashes and commas", () =>
    expect(keys("# lot: 03:12 # a, b")).toEqual({ lot: "03:12 # a, b" }));

  test("a remark has no colon; blank lines and keys without a value say nothing", () =>
    expect(keys("# weighed at night\n#\n\n   \n# lot:\n# charge_g:   ")).toEqual({}));

  test("an unknown key is refused even without a value: a slip of the fingers must not be lost", () => {
    expect(keys("# charge: ")).toMatch(/^line 1: unknown key "charge"/);
    expect(keys("# Lot: 5")).toMatch(/^line 1: unknown key "Lot"/);
    expect(keys("# : 5")).toMatch(/^line 1: unknown key ""/);
  });

  test("a key set twice is refused, even if one of them is blank", () => {
    expect(keys("# lot: 1\n# lot: 1")).toBe("line 2: lot stands twice, the first time on line 1");
    expect(keys("# lot:\n\n# lot: 1")).toBe("line 3: lot stands twice, the first time on line 1");
  });

  test.each([
    ["# charge_g: 300 g", 'line 1, charge_g: "300 g" is not a number'],
    ["# charge_g: 300,5", 'line 1, charge_g: "300,5" has a decimal comma: type a point, or put ; between the columns'],
    ["\n# washed_g: 1.2.3", 'line 2, washed_g: "1.2.3" has two separators: type one, before the decimals'],
    ['# charge_g: "300"', 'line 1, charge_g: ""300"" is not a number'],
  ])("%j", (text, reason) => expect(keys(text)).toBe(reason));
});

describe("separators with which a spreadsheet pads the line", () => {
  test("as many as the table has are no part of the value", () => {
    expect(keys("# lot: 4471-B,,")).toEqual({ lot: "4471-B" });
    expect(keys("# charge_g: 300,2;", ";", 2)).toEqual({ chargeG: 300.2 });
    expect(keys("# a remark,,")).toEqual({});
  });

  test("more or fewer are", () => {
    expect(keys("# lot: 4471-B,")).toEqual({ lot: "4471-B," });
    expect(keys("# lot: 4471-B,,,")).toEqual({ lot: "4471-B," });
    expect(keys("# lot: 4471-B", ",", 1)).toEqual({ lot: "4471-B" });
  });

  test("a value in quotation marks keeps them and the spaces", () => {
    expect(keys('# lot: " a,,"')).toEqual({ lot: " a,," });
    expect(keys('# lot: "a ""b"""')).toEqual({ lot: 'a "b"' });
    expect(keys('# lot: ""')).toEqual({ lot: "" });
    expect(keys('# lot: "a" b')).toEqual({ lot: '"a" b' });
  });
});

describe("numbers in a sheet", () => {
  const number = (cell: string, text: string, separator: "," | ";") => {
    const read = sheetNumber(cell, numberStyle(text, separator));
    return read.ok ? read.value : read.reason;
  };

  test("between commas take a point only", () => {
    expect(number("1.234", "", ",")).toBe(1.234);
    expect(number("12,5", "", ",")).toMatch(/decimal comma/);
    expect(number("1,234", "", ",")).toMatch(/decimal comma/);
  });

  test("between semicolons take either, as long as that can be told apart", () => {
    expect(number("1.234", "63;1.234", ";")).toBe(1.234);
    expect(number("1,234", "63;1,234", ";")).toBe(1.234);
    expect(number("1.234", "63;1.234\n125;2,5", ";")).toMatch(/can be read in two ways/);
    expect(number("1.23", "63;1.23\n125;2,5", ";")).toBe(1.23);
  });

  test("a comma that stands in a text is no decimal comma unless digits are around it", () => {
    expect(number("1.234", "# lot: a, b\n63;1.234", ";")).toBe(1.234);
    expect(number("1.234", "# lot: 4,5\n63;1.234", ";")).toMatch(/can be read in two ways/);
  });
});
