import fc from "fast-check";
import { expect, test } from "vitest";
import { quoted, UNPRINTABLE } from "../../src/entry/quoted.ts";

test("what was entered stands in quotes", () => expect(quoted("5 21.4")).toBe('"5 21.4"'));

test("escape sequences, line ends and turned-round writing are shown as question marks", () =>
  expect(quoted("a\u001b[2Jb\nc\u202ed\u0000")).toBe('"a?[2Jb?c?d?"'));

test("long text is cut to the length asked for, never through a character", () => {
  expect(quoted("abcdefghij", 8)).toBe('"abcde..."');
  expect(quoted("😀".repeat(9), 8)).toBe(`"${"😀".repeat(5)}..."`);
});

test("nothing that a terminal acts on survives, and it stays short", () =>
  fc.assert(
    fc.property(fc.string({ unit: "binary", maxLength: 200 }), (text) => {
      const shown = quoted(text);
      expect(shown).not.toMatch(UNPRINTABLE);
      expect([...shown].length).toBeLessThanOrEqual(32);
    }),
  ));
