import fc from "fast-check";
import stringWidth from "string-width";
import { describe, expect, test } from "vitest";
import { clip, columnsOf, drawable, pad } from "../../src/terminal/sanitise.ts";

describe("what is taken for plain, each character that one unit writes", () => {
  const units = Array.from({ length: 0x10000 }, (_, unit) => String.fromCharCode(unit));
  const alone = units.filter((unit) => !/\p{M}/u.test(unit)); // a mark is another thing behind a letter
  /** Two columns; behind it no shortcut is taken. */
  const FAR = "\u4e2d";

  test("is as wide as the library says", () =>
    expect(units.filter((unit) => columnsOf(unit) !== stringWidth(unit))).toEqual([]));

  test("is drawable as it is drawn behind others", () =>
    expect(alone.filter((unit) => drawable(FAR + unit) !== FAR + drawable(unit))).toEqual([]));

  test("is cut where it is behind others", () => {
    const cutBehind = (unit: string) => clip(FAR + unit.repeat(3), 4, "").slice(FAR.length);
    expect(alone.filter((unit) => clip(unit.repeat(3), 2, "") !== cutBehind(unit))).toEqual([]);
  });
});

describe("drawable", () => {
  test.each([
    ["plain text", "lot 4471-B ~ 0.5", "lot 4471-B ~ 0.5"],
    ["accents and signs", "Körnung 0,5–1,0 ✓", "Körnung 0,5–1,0 ✓"],
    ["a colour sequence", "a\x1b[31mred\x1b[0m", "a·red·"],
    ["a sequence that would clear the screen", "\x1b[2J\x1b[Hgone", "··gone"],
    ["a window title", "x\x1b]0;title\x07y", "x·y"],
    ["an eight-bit sequence", "a\u009b31mb", "a·b"],
    ["a lone ESC", "a\x1bb", "a·b"],
    ["line breaks and tabs", "a\r\nb\tc", "a··b·c"],
    ["bell and delete", "a\x07\x7fb", "a··b"],
    ["a bidi override", "abc\u202edcba", "abc·dcba"],
    ["bidi isolates and marks", "\u2066a\u2069\u200e\u061c", "·a···"],
    ["zero-width characters", "a\u200bb\u200d\ufeffc\u2060", "a·b··c·"],
    ["soft hyphen and variation selector", "a\u00adb\ufe0f", "a·b·"],
    ["unseen fillers", "\u3164\u115f", "··"],
    ["tag characters", "a\u{e0041}", "a·"],
    ["half a surrogate", "a\ud83db", "a·b"],
    ["private use", "\ue000", "·"],
    ["line and paragraph separators", "a\u2028b\u2029", "a·b·"],
    ["unusual spaces", "1\u00a0000\u2009g", "1 000 g"],
    ["a mark that sits on nothing", "\u0301a", "·a"],
    ["a mark behind a space", "a \u0301b", "a ·b"],
    ["a pile of marks", `a${"\u0316".repeat(20)}b`, "a\u0316\u0316·b"],
  ])("shows %s as it may be drawn", (_, text, shown) => expect(drawable(text)).toBe(shown));

  test("composes what is written in parts", () => expect(drawable("Ko\u0308rnung")).toBe("Körnung"));

  const anyText = fc.oneof(fc.string({ unit: "binary" }), fc.string({ unit: "grapheme" }));
  test("leaves nothing in any text that a terminal could obey", () =>
    fc.assert(
      fc.property(anyText, (text) => {
        expect(drawable(text)).not.toMatch(/[\p{C}\p{Zl}\p{Zp}]/u);
      }),
    ));

  test("changes nothing the second time", () =>
    fc.assert(
      fc.property(anyText, (text) => {
        expect(drawable(drawable(text))).toBe(drawable(text));
      }),
    ));
});

describe("clip", () => {
  test.each([
    ["masonry sand", 20, "masonry sand"],
    ["masonry sand", 12, "masonry sand"],
    ["masonry sand", 11, "masonry sa…"],
    ["masonry sand", 1, "…"],
    ["masonry sand", 0, ""],
    ["masonry sand", -3, ""],
    ["石英砂", 6, "石英砂"],
    ["石英砂", 5, "石英…"],
    ["石英砂", 4, "石…"],
    ["e\u0316\u0316xx", 2, "e\u0316\u0316…"],
    ["a\x1b[31mb", 3, "a·b"],
  ])("%j to %i columns is %j", (text, columns, shown) => expect(clip(text, columns)).toBe(shown));

  test("takes three points where there is no Unicode", () => {
    expect(clip("masonry sand", 9, "...")).toBe("masonr...");
    expect(clip("masonry sand", 2, "...")).toBe("..");
  });
});

describe("pad", () => {
  test.each([
    ["5.71", 8, "left", "5.71    "],
    ["5.71", 8, "right", "    5.71"],
    ["5.71", 9, "centre", "  5.71   "],
    ["石", 4, "right", "  石"],
    ["512.25", 4, "right", "512…"],
    ["", 3, "left", "   "],
  ] as const)("%j to %i columns, %s", (text, columns, align, shown) => expect(pad(text, columns, align)).toBe(shown));

  test("takes exactly the columns it is given, whatever the text", () =>
    fc.assert(
      fc.property(
        fc.string({ unit: "grapheme" }),
        fc.nat(30),
        fc.constantFrom("left" as const, "right" as const, "centre" as const),
        (text, columns, align) => {
          expect(stringWidth(pad(text, columns, align))).toBe(columns);
        },
      ),
    ));
});

test("columnsOf counts as a terminal does", () => {
  expect(["", "abc", "Körnung", "石英", "✓", "a\x1b[31mb"].map(columnsOf)).toEqual([0, 3, 7, 4, 1, 2]);
});
