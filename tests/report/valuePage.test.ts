import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CHARACTERISTIC_VALUES } from "../../src/grading/values/table.ts";
import { determined, undetermined } from "../../src/record/determination.ts";
import { valuePage } from "../../src/report/valuePage.ts";

const [row] = CHARACTERISTIC_VALUES;
if (!row) throw new Error("no values");
const pageOf = (found: Parameters<typeof valuePage>[1], columns = 76) => valuePage(row, found, columns);
const anyRow = fc.constantFrom(...CHARACTERISTIC_VALUES);

describe("all that is told of a value", () => {
  test("stands under its own word: formula, convention, needs, source, in this order", () => {
    const heads = pageOf(null)
      .map((line) => line.slice(0, 12).trim())
      .filter((head) => head !== "");
    expect(heads).toEqual(["formula", "convention", "needs", "source"]);
  });

  test("of a test begins with what was found there, and what it rests on, one line each", () => {
    const page = pageOf(determined(421.3, "um", ["the pan left out", "500 um read from the curve"]));
    expect(page.slice(0, 3)).toEqual([
      "here        421 um",
      "rests on    the pan left out",
      "rests on    500 um read from the curve",
    ]);
  });

  test("of a test that can't give it begins with the reason, and rests on nothing", () => {
    const page = pageOf(undetermined("below 63 um (pan holds 14 %)"));
    expect(page[0]).toBe("here        below 63 um (pan holds 14 %)");
    expect(page.join("\n")).not.toContain("rests on");
  });

  test("keeps every word of the table, whatever the width", () => {
    fc.assert(
      fc.property(anyRow, fc.integer({ min: 40, max: 160 }), (value, columns) => {
        const told = valuePage(value, null, columns)
          .map((line) => line.slice(12).trim())
          .join(" ");
        for (const text of [value.formula, value.convention, value.needs, value.source]) {
          expect(told.replace(/\s+/g, " ")).toContain(text.replace(/\s+/g, " ").trim());
        }
      }),
    );
  });

  test("is no wider than asked", () => {
    fc.assert(
      fc.property(anyRow, fc.integer({ min: 40, max: 160 }), (value, columns) => {
        for (const line of valuePage(value, null, columns)) expect(line.length).toBeLessThanOrEqual(columns);
      }),
    );
  });
});

test("a value that has classes says its class in the trade's words", () => {
  const sorting = CHARACTERISTIC_VALUES.find((row) => row.id === "phiGraphicSorting");
  const page = sorting ? valuePage(sorting, determined(0.61, "phi"), 80) : [];
  expect(page[0]).toContain("0.61 phi: moderately well sorted");
});
