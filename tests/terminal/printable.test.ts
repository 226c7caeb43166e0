import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { drawable, printable, printedJson } from "../../src/terminal/sanitise.ts";

const anyText = fc.oneof(fc.string({ unit: "binary" }), fc.string({ unit: "grapheme" }));
/** Written out by hand, not taken from the code: what no terminal may be sent, the ends of lines apart. */
const OBEYED =
  /(?!\r?\n)[\0-\x1f\x7f-\x9f\u00ad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\u{e0000}-\u{e007f}]/u;

describe("printable", () => {
  test.each([
    ["line ends of either kind", "a\nb\r\nc\n", "a\nb\r\nc\n"],
    ["a carriage return alone, which would write over the line", "a\rb\r\r\n", "a·b·\r\n"],
    ["a sequence in the second line", "a\n\x1b[2Jb", "a\n·b"],
    ["a link", "\x1b]8;;http://x\x1b\\y", "·y"],
    ["an eight-bit sequence and a bell", "\x9b31mx\x07", "·x·"],
    ["a tab", "a\tb", "a·b"],
    ["bidi and zero-width", "a\u202eb\u200bc", "a·b·c"],
    ["drawing characters, accents and spaces", "─│┼ Körnung 1\u00a0000 µm ✓\n", "─│┼ Körnung 1\u00a0000 µm ✓\n"],
  ])("of %s", (_, text, printed) => expect(printable(text)).toBe(printed));

  test("leaves nothing in any text that a terminal could obey", () =>
    fc.assert(
      fc.property(anyText, (text) => {
        expect(printable(text)).not.toMatch(OBEYED);
      }),
      { numRuns: 500 },
    ));

  test("changes nothing in what is drawable", () =>
    fc.assert(
      fc.property(anyText, (text) => {
        expect(printable(drawable(text))).toBe(drawable(text));
      }),
    ));
});

describe("printed JSON", () => {
  test("escapes what a terminal would obey, and parses to the very same", () => {
    const text = '\u001b[2J\u009b1m\u202ea\u200b\u{e0041}\ud83d"\\ü✓';
    const printed = printedJson({ text });
    expect(printed).not.toMatch(OBEYED);
    expect(printed).toContain("\\u009b1m\\u202ea\\u200b\\udb40\\udc41");
    expect(JSON.parse(printed)).toEqual({ text });
  });

  test("is indented by two, or packed into one line", () => {
    expect(printedJson({ a: [1] })).toBe('{\n  "a": [\n    1\n  ]\n}');
    expect(printedJson({ a: [1] }, 0)).toBe('{"a":[1]}');
  });

  test("of anything parses to the same and is printable as it is", () =>
    fc.assert(
      fc.property(fc.jsonValue({ stringUnit: "binary" }), fc.constantFrom(0, 2), (content, indent) => {
        const printed = printedJson(content, indent);
        expect(printable(printed)).toBe(printed);
        expect(JSON.parse(printed)).toEqual(JSON.parse(JSON.stringify(content)));
      }),
      { numRuns: 500 },
    ));
});
