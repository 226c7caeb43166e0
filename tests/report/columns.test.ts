import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inColumns, wrapped } from "../../src/report/columns.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";

describe("cells in columns", () => {
  test("first and last to the left, those between to the right, nothing at the end of a row", () =>
    expect(
      inColumns([
        ["aperture", "net", "envelope"],
        ["63 um", "1.5", ""],
        ["pan", "123.4", "x"],
      ]),
    ).toEqual(["aperture    net  envelope", "63 um       1.5", "pan       123.4  x"]));

  test("wide characters take two columns", () =>
    expect(
      inColumns([
        ["砂", "1", "a"],
        ["sand", "22", "b"],
      ]),
    ).toEqual(["砂     1  a", "sand  22  b"]));

  test("no rows are no lines", () => expect(inColumns([])).toEqual([]));
});

describe("words in lines", () => {
  test("break between words, and what follows is indented", () =>
    expect(wrapped("the pan holds 14 % of the mass", 16, "  ")).toEqual(["the pan holds 14", "  % of the mass"]));

  test("a word that is too long has a line to itself", () =>
    expect(wrapped("see supercalifragilistic page", 10)).toEqual(["see", "supercalifragilistic", "page"]));

  test("no word is lost, none is cut, and no line of several words is too wide", () =>
    fc.assert(
      fc.property(
        fc.array(fc.stringMatching(/^\S{1,12}$/), { minLength: 1 }),
        fc.integer({ min: 5, max: 60 }),
        (words, width) => {
          const lines = wrapped(words.join(" "), width, "  ");
          expect(lines.flatMap((line) => line.trim().split(" "))).toEqual(words.join(" ").split(" "));
          for (const line of lines.filter((each) => each.trim().includes(" ")))
            expect(columnsOf(line)).toBeLessThanOrEqual(width);
        },
      ),
    ));
});
