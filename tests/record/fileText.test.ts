import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fileText, MOST_BYTES } from "../../src/record/fileText.ts";
import { newerVersion } from "../../src/record/newerVersion.ts";

const bytes = (text: string) => new TextEncoder().encode(text);

describe("the text of a file", () => {
  test("is UTF-8, and a byte-order mark is no part of it", () => {
    expect(fileText(bytes("Größe µm"))).toEqual({ ok: true, value: "Größe µm" });
    expect(fileText(bytes("\uFEFFa"))).toEqual({ ok: true, value: "a" });
    expect(fileText(bytes("a\uFEFF"))).toEqual({ ok: true, value: "a\uFEFF" });
  });

  test("may have exactly 1 MiB and not a byte more", () => {
    expect(fileText(new Uint8Array(MOST_BYTES).fill(32)).ok).toBe(true);
    expect(fileText(new Uint8Array(MOST_BYTES + 1).fill(32))).toMatchObject({ ok: false });
  });

  test("whatever text is written, it is read back the same", () =>
    fc.assert(
      fc.property(
        fc.string({ unit: "grapheme", minLength: 1 }).filter((text) => !text.startsWith("\uFEFF")),
        (text) => {
          expect(fileText(bytes(text))).toEqual({ ok: true, value: text });
        },
      ),
    ));

  test.each([
    ["Latin-1", [0x47, 0x72, 0xf6]],
    ["UTF-16", [0xff, 0xfe, 0x61, 0x00]],
    ["a cut character", [0x61, 0xc3]],
    ["an overlong slash", [0xc0, 0xaf]],
    ["half a surrogate pair", [0xed, 0xa0, 0x80]],
  ])("%s is refused", (_, raw) =>
    expect(fileText(new Uint8Array(raw))).toEqual({ ok: false, reason: "is not UTF-8 text: save it again as UTF-8" }),
  );

  test("nothing at all is told as such", () =>
    expect(fileText(new Uint8Array())).toEqual({ ok: false, reason: "is empty" }));
});

describe("a file of a newer program", () => {
  test.each([
    ["sievewright.sheet/2", "is of version 2, made by a newer Sievewright: this one reads version 1"],
    ["sievewright.sheet/10", "is of version 10, made by a newer Sievewright: this one reads version 1"],
    ["sievewright.sheet/1", null],
    ["sievewright.sheet/0", null],
    ["sievewright.product/2", null],
    ["sievewright.sheet/2x", null],
    ["sheet", null],
  ])("%s", (schema, told) => expect(newerVersion({ schema }, "sheet")).toBe(told));

  test.each([null, 5, "x", [], {}, { schema: 2 }, { schema: { toString: 1 } }])("%j is none", (json) =>
    expect(newerVersion(json, "product")).toBeNull(),
  );
});
