import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type DecimalMark, MOST_DECIMALS, MOST_INTEGER_DIGITS, parseNumber } from "../../src/entry/quantityNumber.ts";

const read = (text: string, decimal?: DecimalMark, times10To?: number) => {
  const number = parseNumber(text, decimal, times10To);
  return number.ok ? number.value : number.reason;
};

const DIGITS = "0123456789";
const BLANKS = " \t\u00a0";

/** The grammar once more, character by character: what a number is, and its value as the platform reads it. */
function oracle(text: string): number | null {
  let rest = text.trim();
  const sign = rest.startsWith("-") ? -1 : 1;
  if (rest.startsWith("-") || rest.startsWith("+")) rest = rest.slice(1);
  while (rest !== "" && BLANKS.includes(rest.charAt(0))) rest = rest.slice(1);
  if ([...rest].some((c) => !`${DIGITS}.,`.includes(c))) return null;
  const [integer = "", decimals = null, ...more] = rest.split(/[.,]/);
  if (more.length > 0 || !bounded(integer, decimals)) return null;
  return sign * Number(`${integer || "0"}.${decimals ?? "0"}`) + 0;
}

function bounded(integer: string, decimals: string | null): boolean {
  if (decimals === null) return integer !== "" && Number(integer) < 10 ** MOST_INTEGER_DIGITS;
  return decimals !== "" && decimals.length <= MOST_DECIMALS && Number(integer) < 10 ** MOST_INTEGER_DIGITS;
}

describe("what is a number", () => {
  const text = fc.string({ unit: fc.constantFrom(..."0123456789.,+- \te"), maxLength: 14 });

  test("is what the grammar says, spelled out character by character, and has the value that the platform reads", () =>
    fc.assert(
      fc.property(text, (typed) => {
        const expected = oracle(typed);
        const found = parseNumber(typed);
        expect(found.ok ? found.value : null).toBe(expected);
      }),
      { numRuns: 5000 },
    ));

  test("the oracle itself accepts and refuses", () => {
    expect([oracle("521.4"), oracle("- ,5"), oracle("12345678"), oracle("1.2.3"), oracle("5."), oracle("")]).toEqual([
      521.4,
      -0.5,
      null,
      null,
      null,
      null,
    ]);
  });

  test("has up to 7 digits before and 6 after its mark, zeros in front not counted", () => {
    expect(read("9999999.999999")).toBe(9_999_999.999999);
    expect(read("0000000009999999")).toBe(9_999_999);
    expect(read("10000000")).toBe('"10000000" has more than 7 digits before the decimals');
    expect(read("0.0000001")).toBe('"0.0000001" has more than 6 decimals');
  });
});

describe("the decimal mark of a station", () => {
  const thousandsLike = fc.tuple(
    fc.integer({ min: 1, max: 999 }),
    fc.integer({ min: 0, max: 999 }).map((n) => String(n).padStart(3, "0")),
  );

  test("one to three digits and three more after the other mark have two readings", () =>
    fc.assert(
      fc.property(thousandsLike, ([before, after]) => {
        expect(read(`${before},${after}`, "point")).toBe(
          `"${before},${after}" can be read in two ways: type ${before}${after} or ${before}.${after}`,
        );
        expect(read(`${before}.${after}`, "comma")).toBe(
          `"${before}.${after}" can be read in two ways: type ${before}${after} or ${before},${after}`,
        );
        expect(read(`${before}.${after}`, "point")).toBe(Number(`${before}.${after}`));
        expect(read(`${before},${after}`, "comma")).toBe(Number(`${before}.${after}`));
      }),
    ));

  test("whatever it is, it makes no number different, it only refuses more", () =>
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom(..."0123456789.,-"), maxLength: 9 }),
        fc.constantFrom("point", "comma"),
        (typed, decimal) => {
          const [free, strict] = [parseNumber(typed), parseNumber(typed, decimal)];
          if (strict.ok) expect(strict).toEqual(free);
        },
      ),
      { numRuns: 2000 },
    ));

  test.each(["0,234", "1234,567", "01,234", ",234", "1,23", "1,2345"])("%j can't be thousands and is read", (typed) =>
    expect(read(typed, "point")).toBe(Number(typed.replace(",", "."))),
  );

  test("a sign does not hide two readings", () =>
    expect(read("-1,234", "point")).toMatch(/^"-1,234" can be read in two ways/));
});

describe("a shifted decimal point", () => {
  test.each([
    ["1.15", 3, 1150],
    ["0.0385", 3, 38.5],
    ["0,0041", 3, 4.1],
    ["-0.5", 3, -500],
    ["125", 3, 125_000],
    ["1500", -3, 1.5],
  ])("%s times 10 to the %d is %d exactly", (typed, power, expected) =>
    expect(read(typed, undefined, power)).toBe(expected),
  );

  test("gives the double nearest to the decimal, as if it had been typed so", () =>
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 9_999_999_999 }), (millionths) => {
        const typed = (millionths / 1e6).toFixed(6);
        expect(read(typed, undefined, 3)).toBe(Number(`${millionths}e-3`));
      }),
    ));
});

test("no text makes it slow", () => {
  const startedAt = performance.now();
  for (const part of ["1", " ", "1 ", "1.", ",", "-", "\u00a0"])
    expect(typeof read(part.repeat(200_000))).toBe("string");
  expect(performance.now() - startedAt).toBeLessThan(2000);
});
