import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type ReadingMarks, readingOf } from "../../src/entry/reading.ts";

const read = (text: string, marks?: ReadingMarks) => {
  const { massG } = readingOf(text, marks);
  return massG.ok ? massG.value : massG.reason;
};

describe("what a balance types around a mass", () => {
  test.each([
    ["521.40", 521.4],
    ["+  521.40 g", 521.4],
    ["-    0.02 g", -0.02],
    ["  +0000521.40 g", 521.4],
    ["521,40 g", 521.4],
    ["0.5214 kg", 521.4],
    ["521400 mg", 521.4],
    ["S     521.40 g", 521.4],
    ["S S   521.40 g", 521.4],
    ["N +  521.40 g", 521.4],
    ["NET: 521.40 g", 521.4],
    ["Gross  521.40 g", 521.4],
    ["ST,GS,+  521.40,g", 521.4],
    ["ST,NT,+0000521.4 g", 521.4],
    ["521.40 g S", 521.4],
    ["521.40 g  N  S", 521.4],
    ["521.4[0] g", 521.4],
    ["2026-11-24 03:12:05  521.40 g", 521.4],
    ["24.11.2026 03:12  N 521.40 g S", 521.4],
    ["2026-11-24T03:12:05, +521.40 g", 521.4],
    ["521.40 g 03:12:05", 521.4],
    ["521.40 g\t24/11/26\t03:12", 521.4],
  ])("%j is %d g", (text, massG) => expect(read(text)).toBe(massG));

  test.each(["521.40 g ?", "? 521.40 g", "521.40g*", "* N 521.40 g", "U 521.40 g", "US,NT,+ 521.40 g", "S D 521.40 g"])(
    "%j is not at rest, and is refused",
    (text) => expect(read(text)).toContain("the balance says it is not at rest"),
  );

  test.each(["T 120.00 g", "120.00 g T", "Tare: 120.00 g", "PT 120.00 g S"])("%j is a tare, and is refused", (text) =>
    expect(read(text)).toContain("is the tare"),
  );

  test.each([
    ["1.234,5 g", "two separators"],
    ["5 21.4", "a space inside the number"],
    ["G 641.40 g T 120.00 g N 521.40 g", "is not a number"],
    ["lot 4471", "is not a number"],
    ["4471-B", "is not a number"],
    ["521.40 lb", "enter g, kg or mg"],
    ["2026-11-24 03:12", "is a day or a time, and no mass"],
    ["------", "is not a number"],
    ["OVER", "is not a number"],
    ["", "nothing was entered"],
  ])("%j is refused: %s", (text, why) => expect(read(text)).toContain(why));

  test("a station may name the marks of its own balance", () => {
    const marks = { atRest: ["OK"], moving: ["!"], passedOver: ["Sieb"] };
    expect(read("ok SIEB 521.40 g", marks)).toBe(521.4);
    expect(read("521.40 g !", marks)).toContain("not at rest (!)");
    expect(read("S 521.40 g", marks)).toContain("is not a number");
    expect(read("T 521.40 g", { passedOver: ["T"] })).toBe(521.4);
  });

  test("says of a line with a sign, a unit or a mark that it is hardly anything but a mass", () => {
    for (const text of ["521.40 g", "+521.40", "S 521.40", "521.40 ?"]) expect(readingOf(text).marked, text).toBe(true);
    for (const text of ["4471", "521.40", "4471-B", "TH-0510", "", "S-0710-2", "M210-A"])
      expect(readingOf(text).marked, text).toBe(false);
  });
});

const around = fc.constantFrom("", "S ", "N ", "S N ", "ST,GS,", "G  ");
const stamp = fc.constantFrom("", "03:12:05 ", "2026-11-24 03:12 ", "24.11.26  ");
const unit = fc.constantFrom("", " g", "g", " kg");
const behind = fc.constantFrom("", " S", "  N", " 03:12");
const sign = fc.constantFrom("", "+", "+   ", "-", "-  ");

test("whatever mass is printed in any of these forms, it is read back the same", () =>
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 99_999_999 }),
      fc.record({ stamp, around, sign, unit, behind, comma: fc.boolean() }),
      (mg, form) => {
        const decimals = form.unit === " kg" ? 6 : 3;
        const digits = `${mg}`.padStart(decimals + 1, "0");
        const figure = `${digits.slice(0, -decimals)}${form.comma ? "," : "."}${digits.slice(-decimals)}`;
        const text = `${form.stamp}${form.around}${form.sign}${figure}${form.unit}${form.behind}`;
        const massG = Number(`${mg}e-3`) * (form.sign.startsWith("-") && mg !== 0 ? -1 : 1);
        expect(readingOf(text).massG, text).toEqual({ ok: true, value: massG });
      },
    ),
    { numRuns: 2000 },
  ));

const pieces = fc.constantFrom(..."0123456789.,+-?*gkKSNT: \t\u00a0[]", "kg", "ST", "10:02", "x", "\u001b", "\ud83d");

test("never throws; reads a finite mass or says why not in one line", () =>
  fc.assert(
    fc.property(fc.oneof(fc.string({ unit: pieces }), fc.string({ unit: "binary" })), (text) => {
      const { massG } = readingOf(text);
      if (massG.ok) expect(Math.abs(massG.value)).toBeLessThanOrEqual(1e7);
      else expect(massG.reason).toMatch(/^[^\p{Cc}]+$/u);
    }),
    { numRuns: 3000 },
  ));
