import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { apertureText } from "../../src/series/apertureText.ts";
import { apertureOf, notesOn, readDesignation } from "../../src/series/designation.ts";
import { STANDARD_APERTURES } from "../../src/series/table.ts";

const reasonOf = (text: string): string => {
  const read = apertureOf(text);
  return read.ok ? `read as ${read.value}` : read.reason;
};
const notesOf = (text: string): readonly string[] => {
  const read = readDesignation(text);
  return read.ok ? read.value.notes : [`refused: ${read.reason}`];
};

describe("a sieve's name", () => {
  test.each([
    ["No. 30", 600],
    ["no. 30", 600],
    ["No.30", 600],
    ["No 30", 600],
    ["#30", 600],
    ["# 30", 600],
    ["US 30", 600],
    ["US No. 30", 600],
    ["sieve no. 30", 600],
    ["No. 4", 4750],
    ["No. 3 1/2", 5600],
    ["No. 200", 75],
    ["No. 635", 20],
    ["3/8 in.", 9500],
    ["3/8 in", 9500],
    ['3/8"', 9500],
    ["3/8 inch", 9500],
    ["3/8”", 9500],
    ["3/8''", 9500],
    ["1 in.", 25_000],
    ["1 1/2 in.", 37_500],
    ['1-1/2"', 37_500],
    ["0.265 in.", 6700],
    [".265 in", 6700],
    ["2.12 in.", 53_000],
    ["600 um", 600],
    ["600um", 600],
    ["600 µm", 600],
    ["600 μm", 600],
    ["600 micron", 600],
    ["600 microns", 600],
    ["600 micrometres", 600],
    ["0.6 mm", 600],
    ["0,6 mm", 600],
    [".6mm", 600],
    ["1.18 mm", 1180],
    ["0.063 mm", 63],
    ["31.5 mm", 31_500],
    ["  4.75   mm ", 4750],
    ["600", 600],
    ["30 mesh", 600],
    ["28 mesh", 600],
    ["48mesh", 300],
    ["100 mesh", 150],
    ["200 mesh", 75],
  ])("%s is %d um", (name, apertureUm) => expect(apertureOf(name)).toEqual({ ok: true, value: apertureUm }));

  test("leads back to the same aperture for each standard sieve, by its size and its US name", () => {
    for (const { apertureUm, us } of STANDARD_APERTURES) {
      expect(apertureOf(apertureText(apertureUm))).toEqual({ ok: true, value: apertureUm });
      if (us) expect(apertureOf(us.name)).toEqual({ ok: true, value: apertureUm });
    }
  });

  test("in mm is the same aperture in um, to the last digit", () =>
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999_999 }), (um) => {
        expect(apertureOf(`${um / 1000} mm`)).toEqual({ ok: true, value: um });
        expect(apertureOf(`${um} um`)).toEqual({ ok: true, value: um });
      }),
    ));
});

describe("inches", () => {
  test("are a name, not a measure: 3/8 in. is 9.5 mm and not 9.525", () => {
    expect(apertureOf("3/8 in.")).toEqual({ ok: true, value: 9500 });
    expect(apertureOf("0.375 in.")).toEqual({ ok: true, value: 9500 });
  });

  test("without a name in the standard are converted and that is said", () => {
    expect(apertureOf("1/3 in.")).toEqual({ ok: true, value: 8467 });
    expect(notesOf("1/3 in.")).toEqual([
      "no name in ASTM E11: converted at 25.4 mm to the inch",
      "8.467 mm is no aperture of ISO 565 or ASTM E11",
    ]);
  });
});

describe("a number with two readings is refused with both", () => {
  test.each([
    ["30", "30 can be No. 30 (600 um) or 30 um: write which"],
    ["14 mesh", "14 mesh is 1.4 mm as No. 14 but 1.18 mm by the older mesh count: write the aperture"],
    ["35 mesh", "35 mesh is 500 um as No. 35 but 425 um by the older mesh count: write the aperture"],
    ["5", "5 can be No. 5 (4 mm) or 5 um: write which"],
    ["4.75", "4.75 can be mm or um: write the unit"],
    ["0.6", "0.6 can be mm or um: write the unit"],
  ])("%s", (text, reason) => expect(reasonOf(text)).toBe(reason));
});

describe("what names no sieve is refused in words", () => {
  test.each([
    ["No. 31", "ASTM E11 has no sieve No. 31"],
    ["29 mesh", "no sieve of 29 mesh is known: write its aperture"],
    ["", '"" names no aperture: write 600 um, 0.6 mm, No. 30 or 3/8 in.'],
    ["pan", '"pan" names no aperture: write 600 um, 0.6 mm, No. 30 or 3/8 in.'],
    ["600 nm", '"600 nm" names no aperture: write 600 um, 0.6 mm, No. 30 or 3/8 in.'],
    ["6e2 um", '"6e2 um" names no aperture: write 600 um, 0.6 mm, No. 30 or 3/8 in.'],
    ["-600 um", '"-600 um" names no aperture: write 600 um, 0.6 mm, No. 30 or 3/8 in.'],
    ["1,2,3 mm", '"1,2,3 mm" names no aperture: write 600 um, 0.6 mm, No. 30 or 3/8 in.'],
    ["0 um", "an aperture lies between 1 um and 1 m"],
    ["0 in.", "an aperture lies between 1 um and 1 m"],
    ["3/0 in.", "an aperture lies between 1 um and 1 m"],
    ["2000 mm", "an aperture lies between 1 um and 1 m"],
  ])("%j", (text, reason) => expect(reasonOf(text)).toBe(reason));

  test("never with control characters of the text, and never at length", () => {
    expect(reasonOf("\u001b[31m600")).toBe('"?[31m600" names no aperture: write 600 um, 0.6 mm, No. 30 or 3/8 in.');
    expect(reasonOf("x".repeat(500)).length).toBeLessThan(100);
  });

  test("whatever the text, the answer is an aperture above 0 or a reason", () =>
    fc.assert(
      fc.property(fc.string({ maxLength: 40 }), (text) => {
        const read = apertureOf(text);
        if (read.ok) expect(read.value).toBeGreaterThan(0);
        else expect(read.reason.length).toBeGreaterThan(10);
      }),
    ));
});

describe("notes", () => {
  test("a bare number says how it was read", () => expect(notesOf("710")).toEqual(["a bare number is read as um"]));

  test("a standard size in um or mm needs none", () => {
    expect(notesOf("710 um")).toEqual([]);
    expect(notesOf("0.71 mm")).toEqual([]);
  });

  test("a US number tells its older opening where that differed", () => {
    expect(notesOf("No. 30")).toEqual(["older documents give No. 30 an opening of 590 um"]);
    expect(notesOf("No. 270")).toEqual([]);
    expect(notesOf("No. 35")).toEqual([]);
  });

  test("a mesh count says which count it was read by", () => {
    expect(notesOf("30 mesh")).toEqual(["read as US No. 30"]);
    expect(notesOf("28 mesh")).toEqual(["read by the older mesh count (recalled)"]);
  });

  test.each([
    [590, "590 um is the older opening of No. 30, today 600 um: old documents map by number"],
    [4760, "4760 um is the older opening of No. 4, today 4.75 mm: old documents map by number"],
    [74, "74 um is the older opening of No. 200, today 75 um: old documents map by number"],
    [605, "605 um is no aperture of ISO 565 or ASTM E11"],
    [1650, "1.65 mm is no aperture of ISO 565 or ASTM E11"],
    [15, "15 um is no aperture of ISO 565 or ASTM E11"],
  ])("an aperture of %d um is kept as written and noted", (apertureUm, note) => {
    expect(apertureOf(`${apertureUm} um`)).toEqual({ ok: true, value: apertureUm });
    expect(notesOn(apertureUm)).toEqual([note]);
  });

  test("53 um was No. 270 then and is now: nothing to note", () => expect(notesOn(53)).toEqual([]));
});
