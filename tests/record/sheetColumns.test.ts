import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cellsOf, NO_COLUMN, sheetColumns } from "../../src/record/sheetColumns.ts";

const columns = (header: string) => {
  const read = sheetColumns(header);
  return read.ok ? read.value : read.reason;
};

describe("a header", () => {
  test("says where each thing stands", () =>
    expect(columns("aperture_um,empty_g,full_g")).toEqual({
      separator: ",",
      columns: {
        names: ["aperture_um", "empty_g", "full_g"],
        aperture: 0,
        inMm: false,
        empty: 1,
        full: 2,
        net: NO_COLUMN,
        sieve: NO_COLUMN,
      },
    }));

  test("may have its columns in any order, in quotes, among spaces", () =>
    expect(columns(' "full_g" ; sieve;empty_g; aperture_mm')).toMatchObject({
      separator: ";",
      columns: { aperture: 3, inMm: true, empty: 2, full: 0, net: NO_COLUMN, sieve: 1 },
    }));

  test.each([
    ["net_g", "aperture_um", "sieve"],
    ["sieve", "net_g", "aperture_um"],
    ["aperture_um", "sieve", "net_g"],
  ])("%s, %s, %s", (...names) =>
    expect(columns(names.join(","))).toMatchObject({
      columns: {
        names,
        aperture: names.indexOf("aperture_um"),
        net: names.indexOf("net_g"),
        sieve: names.indexOf("sieve"),
      },
    }),
  );

  test("names are exact: case and spelling count", () => {
    expect(columns("Aperture_um,net_g")).toMatch(/^unknown column "Aperture_um"/);
    expect(columns("aperture,net_g")).toMatch(/^unknown column "aperture"/);
    expect(columns("aperture_um,net_kg")).toMatch(/^unknown column "net_kg"/);
  });

  test.each([
    ["aperture_um,full_g", "needs the columns empty_g and full_g, or net_g"],
    ["aperture_um", "needs the columns empty_g and full_g, or net_g"],
    ["aperture_um,sieve", "needs the columns empty_g and full_g, or net_g"],
    ["aperture_um,empty_g,net_g", "has net_g beside empty_g and full_g: keep either net_g or the two weighings"],
    ["net_g", "needs a column aperture_um or aperture_mm, one of the two"],
    ["sieve,sieve,net_g,aperture_um", "the column sieve stands twice"],
    ['aperture_um,"net_g', "has a quotation mark out of place: put quotes around the whole cell or leave them out"],
  ])("%s is refused", (header, reason) => expect(columns(header)).toBe(reason));
});

describe("the cells of a line", () => {
  const printed = (cell: string) => `"${cell.replaceAll('"', '""')}"`;

  test("are read back whatever stands in them, if they are quoted as RFC 4180 says", () =>
    fc.assert(
      fc.property(
        fc.array(
          fc.string({ unit: "grapheme" }).filter((cell) => !/[\r\n\ufeff]/.test(cell)),
          { minLength: 1, maxLength: 5 },
        ),
        fc.constantFrom("," as const, ";" as const),
        (cells, separator) => {
          expect(cellsOf(cells.map(printed).join(separator), separator)).toEqual({ ok: true, value: cells });
        },
      ),
    ));

  test("lose the spaces around them, not those inside", () =>
    expect(cellsOf('  a b ,\t"c d"  ,', ",")).toEqual({ ok: true, value: ["a b", "c d", ""] }));

  test("the other separator is text", () => expect(cellsOf("1,5;2", ";")).toEqual({ ok: true, value: ["1,5", "2"] }));

  test.each(['"', 'a"b', '"a"b', '"a","'])("%s is refused", (line) => expect(cellsOf(line, ",").ok).toBe(false));
});
