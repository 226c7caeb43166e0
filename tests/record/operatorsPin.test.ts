import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { pinRefusal } from "../../src/record/operatorsPin.ts";

const TOO_EASY = "this PIN is among the first that anybody tries: choose another";

describe("a PIN", () => {
  test.each(["4711", "8305", "190734", "271828182845"])("%s will do", (pin) => expect(pinRefusal(pin)).toBeNull());

  test.each(["", "1", "123", "1234567890123"])("%j has too few or too many digits", (pin) =>
    expect(pinRefusal(pin)).toBe("a PIN has 4 to 12 digits"),
  );

  test.each(["0000", "1111", "1234", "4321", "2468", "7890", "0987", "1212", "123123", "000000000000", "1984", "2026"])(
    "%s is too easy",
    (pin) => expect(pinRefusal(pin)).toBe(TOO_EASY),
  );

  test("of one digit, however long, is always too easy", () =>
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 9 }), fc.integer({ min: 4, max: 12 }), (digit, length) => {
        expect(pinRefusal(`${digit}`.repeat(length))).toBe(TOO_EASY);
      }),
    ));
});

describe("a passphrase", () => {
  test.each(["sand and gravel", "4711-sieves", "Körner, trocken", "four words say more"])("%s will do", (words) =>
    expect(pinRefusal(words, ["KO", "K. Orr"])).toBeNull(),
  );

  test.each(["KO", "ko", "abcd", "sand 4711"])("%s is too short to be one", (words) =>
    expect(pinRefusal(words)).toBe("a PIN is digits alone; with other characters it takes at least 10 of them"),
  );

  test.each([
    ["aaaaaaaaaaaa", []],
    ["abababababab", []],
    ["..........", []],
    ["Katharina Orr", ["KO", "katharina orr"]],
    ["k-a-t-h-a-r-i-n-a", ["KO", "Katharina"]],
  ])("%s is too easy", (words, whose) =>
    expect(pinRefusal(words, whose)).toBe("this passphrase is too easily guessed: choose another"),
  );

  test("has an end", () => expect(pinRefusal("sieve and pan ".repeat(6))).toBe("at most 64 characters"));
});

test("whatever is typed is taken or refused in words", () =>
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), (typed) => {
      const why = pinRefusal(typed, ["KO"]);
      expect(why === null || why.length > 10).toBe(true);
      if (why === null) expect([...typed].length).toBeGreaterThanOrEqual(4);
    }),
  ));
