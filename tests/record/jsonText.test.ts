import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readJsonText } from "../../src/record/jsonText.ts";

const reasonFor = (text: string) => {
  const read = readJsonText(text);
  return read.ok ? `read ${JSON.stringify(read.value.json)}` : read.reason;
};

describe("a fault is told with its line and column, counted from 1", () => {
  test.each([
    ['{"a": 1,}', 'line 1, column 9: expected a field name in quotes, found "}"'],
    ['{\n  "a": 1\n  "b": 2\n}', 'line 3, column 3: expected a comma or the closing bracket, found "b"'],
    ['{\r\n\r\n "a" 1}', 'line 3, column 6: expected a colon, found "1"'],
    ["[1, 2", "line 1, column 6: the file ends where a comma or the closing bracket is expected"],
    ["", "line 1, column 1: the file ends where a value is expected"],
    ["[1, 2]]", 'line 1, column 7: expected the end, found "]"'],
    ["[1}", 'line 1, column 3: expected a comma or the closing bracket, found "}"'],
    ["[01]", 'line 1, column 3: expected a comma or the closing bracket, found "1"'],
    ["[1,]", 'line 1, column 4: expected a value, found "]"'],
    ["[.5]", 'line 1, column 2: expected a value or ], found ".5]"'],
    ["[NaN]", 'line 1, column 2: expected a value or ], found "NaN]"'],
    ["{a: 1}", 'line 1, column 2: expected a field name in quotes or }, found "a: 1}"'],
    ["// remark\n{}", 'line 1, column 1: expected a value, found "// remark?{}"'],
    ['["\u0000"]', 'line 1, column 2: expected a value or ], found "?"]"'],
    ['["a\nb"]', 'line 1, column 2: expected a value or ], found "a?b"]"'],
    ["[1, \u0000]", 'line 1, column 5: expected a value, found "?]"'],
  ])("%j", (text, reason) => expect(reasonFor(text)).toBe(reason));
});

describe("what JSON allows and a plant's file must not hold", () => {
  test("the same field twice: one of them would be lost unseen", () =>
    expect(reasonFor('{"lot": "1",\n "lot": "2"}')).toBe('line 2, column 2: the field "lot" stands twice'));

  test("the same field twice, once in escapes", () =>
    expect(reasonFor('{"lot": 1, "l\\u006ft": 2}')).toBe('line 1, column 12: the field "lot" stands twice'));

  test.each(['{"__proto__": {"pan": true}}', '{"a": [{"\\u005f_proto__": 1}]}'])("%j", (text) => {
    expect(reasonFor(text)).toMatch(/^line 1, column \d+: the field name "__proto__" is not allowed$/);
    expect(({} as { pan?: boolean }).pan).toBeUndefined();
  });

  test("more than 32 levels, however many there are", () => {
    expect(reasonFor("[".repeat(32) + "]".repeat(32))).toMatch(/^read /);
    expect(reasonFor("[".repeat(33))).toBe("line 1, column 33: is nested more than 32 deep");
    expect(reasonFor('{"a":'.repeat(150_000))).toMatch(/nested more than 32 deep$/);
  });

  test("fields of the same name in different objects are no repetition", () =>
    expect(reasonFor('[{"netG":1},{"netG":2,"in":{"netG":3}}]')).toMatch(/^read /));
});

test("a megabyte within one string or one list is read", () => {
  expect(reasonFor(JSON.stringify("a\\n".repeat(200_000)))).toMatch(/^read /);
  expect(reasonFor(`[${"1,".repeat(400_000)}1]`)).toMatch(/^read /);
});

test("the place of a value is where it begins, of a missing one where its owner does", () => {
  const read = readJsonText('{\n  "weighings": [\n    { "netG": 1 },\n    { "netG": "x" }\n  ]\n}');
  expect(read.ok).toBe(true);
  if (!read.ok) return;
  expect(read.value.placeOf(["weighings", 1, "netG"])).toBe("line 4, column 15");
  expect(read.value.placeOf(["weighings", 0, "apertureUm"])).toBe("line 3, column 5");
  expect(read.value.placeOf(["schema"])).toBe("line 1, column 1");
  expect(read.value.placeOf([])).toBe("line 1, column 1");
});

const parsed = (text: string): unknown => {
  try {
    return { json: JSON.parse(text) };
  } catch {
    return "refused";
  }
};
const read = (text: string): unknown => {
  const found = readJsonText(text);
  return found.ok ? { json: found.value.json } : "refused";
};
const noProto = (text: string) => !text.includes("__proto__");

test("whatever JSON is printed, packed or spread, is read back as the platform's own reader reads it", () =>
  fc.assert(
    fc.property(fc.json({ maxDepth: 6 }).filter(noProto), fc.constantFrom(0, 1, "\t"), (packed, indent) => {
      const text = JSON.stringify(JSON.parse(packed), null, indent);
      expect(read(text)).toEqual(parsed(text));
    }),
  ));

test("a JSON text with one character changed is accepted only if the platform's own reader accepts it", () =>
  fc.assert(
    fc.property(
      fc.json({ maxDepth: 3, stringUnit: "binary" }).filter(noProto),
      fc.nat(),
      fc.constantFrom(...'{}[],:"\\0-1.eEtn /\u0000\n'),
      (text, where, instead) => {
        const at = where % (text.length + 1);
        const changed = text.slice(0, at) + instead + text.slice(at + 1);
        const found = readJsonText(changed);
        const twice = !found.ok && /stands twice|not allowed/.test(found.reason);
        if (!twice) expect(read(changed)).toEqual(parsed(changed));
      },
    ),
    { numRuns: 3000 },
  ));

test("never throws on any text, and its message is one line", () =>
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), (text) => {
      const found = readJsonText(text);
      if (!found.ok) expect(found.reason).toMatch(/^line \d+, column \d+: [^\p{Cc}]+$/u);
    }),
  ));
