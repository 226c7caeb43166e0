import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseMassG } from "../../src/entry/quantity.ts";

const reasonFor = (text: string, decimal?: "point" | "comma") => {
  const mass = parseMassG(text, decimal);
  return mass.ok ? `read as ${mass.value}` : mass.reason;
};

describe("a mass as typed or as a balance types it", () => {
  test.each([
    ["521.4", 521.4],
    ["521,40", 521.4],
    [" +  521.40 g", 521.4],
    ["+521.40g\t", 521.4],
    ["0.5214 kg", 521.4],
    ["0,5214KG", 521.4],
    ["521400 mg", 521.4],
    ["4.1mg", 0.0041],
    ["-0.02", -0.02],
    ["-  0.02 g", -0.02],
    [".5", 0.5],
    ["00521.40", 521.4],
    ["300", 300],
    ["9999999", 9_999_999],
    ["10000 kg", 1e7],
    ["521.4\u00a0g", 521.4],
  ])("%j is %d g", (text, massG) => expect(parseMassG(text)).toEqual({ ok: true, value: massG }));

  test.each(["0", "-0", "-0.00 g", "+0,0"])("%j is zero without a sign", (text) => {
    const mass = parseMassG(text);
    expect(mass.ok && Object.is(mass.value, 0)).toBe(true);
  });

  test("kilograms shift the point on the text: no digit is invented", () => {
    expect(parseMassG("0.0041 kg")).toEqual({ ok: true, value: 4.1 });
    expect(0.0041 * 1000).not.toBe(4.1);
  });
});

describe("one separator begins decimals, never thousands", () => {
  test.each([
    ["1,234", 1.234],
    ["1.234", 1.234],
    ["521.400 g", 521.4],
  ])("%j is %d g", (text, massG) => expect(parseMassG(text)).toEqual({ ok: true, value: massG }));

  test("where the station's mark is known, the other one before three digits has two readings and is refused", () => {
    expect(reasonFor("1,234", "point")).toBe('"1,234" can be read in two ways: type 1234 or 1.234');
    expect(reasonFor("1.234", "comma")).toBe('"1.234" can be read in two ways: type 1234 or 1,234');
  });

  test.each([
    ["1.234", "point", 1.234],
    ["1,234", "comma", 1.234],
    ["0,234", "point", 0.234],
    ["1,23", "point", 1.23],
    ["1,2345", "point", 1.2345],
    ["1234,567", "point", 1234.567],
  ] as const)("%j at a station of the decimal %s has one reading, %d g", (text, decimal, massG) =>
    expect(parseMassG(text, decimal)).toEqual({ ok: true, value: massG }),
  );
});

describe("what can't be read is refused, with the reason and what to type", () => {
  test.each([
    ["1,234.5", '"1,234.5" has two separators: type 1234.5'],
    ["1.234,5", '"1.234,5" has two separators: type 1234.5'],
    ["1.2.3", '"1.2.3" has two separators: type one, before the decimals'],
    ["1.234.567,8", '"1.234.567,8" has 3 separators: type one, before the decimals'],
    ["..", '".." has two separators: type one, before the decimals'],
    ["", "nothing was entered"],
    ["   ", "nothing was entered"],
    ["5 21.4", '"5 21.4" has a space inside the number'],
    ["521. 4", '"521. 4" has a space inside the number'],
    ["521.", '"521." ends in a separator: type the decimals or leave it out'],
    ["1e3", '"1e3" has an exponent: type it in full'],
    ["1E-3 g", '"1E-3" has an exponent: type it in full'],
    ["0x10", '"0x10" is not a number'],
    ["0x1F", '"0x1" is not a number'],
    ["+", '"+" is not a number'],
    [".", '"." is not a number'],
    ["g", '"g" is not a number'],
    ["NaN", '"NaN" is not a number'],
    ["Infinity", '"Infinity" is not a number'],
    ["--5", '"--5" is not a number'],
    ["5-", '"5-" is not a number'],
    ["5 %", '"5 %" is not a number'],
    ["1'234", '"1\'234" is not a number'],
    ["S S 521.40 g", '"S S 521.40" is not a number'],
    ["ST,GS,+ 521.40 g", '"ST,GS,+ 521.40" is not a number'],
    ["٥٢١", '"٥٢١" is not a number'],
    ["12345678", '"12345678" has more than 7 digits before the decimals'],
    ["1.1234567", '"1.1234567" has more than 6 decimals'],
    ["521.4 k", 'the unit "k" is not read here: enter g, kg or mg'],
    ["521.4 µg", 'the unit "µg" is not read here: enter g, kg or mg'],
    ["10000.001 kg", '"10000.001 kg" is more than 10000 kg'],
    ["5\u001b[2J", '"5?[2" is not a number'],
  ])("%j", (text, reason) => expect(reasonFor(text)).toBe(reason));

  test("a long line is shortened in the message", () =>
    expect(reasonFor("9".repeat(5000))).toBe(`"${"9".repeat(27)}..." is not a number`));
});

const mark = fc.constantFrom(".", ",");
const sign = fc.constantFrom("", "+", "+  ", " + ");

test("whatever g with up to 6 decimals is printed, by point or comma, it is read back the same", () =>
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 9_999_999_999_999 }), mark, sign, (millionths, separator, plus) => {
      const massG = Number(`${millionths}e-6`);
      const text = `${plus}${massG.toFixed(6).replace(".", separator)} g`;
      expect(parseMassG(text)).toEqual({ ok: true, value: massG });
    }),
  ));

test("whatever mg is printed in kg, it is read back as the same g", () =>
  fc.assert(
    fc.property(fc.integer({ min: -9_999_999_999, max: 9_999_999_999 }), mark, (mg, separator) => {
      const digits = `${Math.abs(mg)}`.padStart(7, "0");
      const text = `${mg < 0 ? "-" : ""}${digits.slice(0, -6)}${separator}${digits.slice(-6)} kg`;
      expect(parseMassG(text)).toEqual({ ok: true, value: Number(`${mg}e-3`) });
    }),
  ));

const keys = fc.string({ unit: fc.constantFrom(..."0123456789.,+-gkmKe \u00a0x\u001b\ud83d") });

test("never throws, and reads nothing but a finite mass of bounded size", () =>
  fc.assert(
    fc.property(
      fc.oneof(keys, fc.string({ unit: "binary" })),
      fc.constantFrom(undefined, "point", "comma"),
      (text, decimal) => {
        const mass = parseMassG(text, decimal);
        if (mass.ok) expect(Math.abs(mass.value)).toBeLessThanOrEqual(1e7);
        else expect(mass.reason).toMatch(/^[^\p{Cc}]+$/u);
      },
    ),
    { numRuns: 2000 },
  ));
