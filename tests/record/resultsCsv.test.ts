import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readResultsCsv } from "../../src/record/resultsCsv.ts";

const read = (text: string) => readResultsCsv(new TextEncoder().encode(text));
const refusal = (text: string): string => {
  const found = read(text);
  return found.ok ? expect.fail("it was read") : found.reason;
};

describe("results of several stations as CSV", () => {
  test("a row a result; remarks, portions and empty lines are passed over", () => {
    const found = read("# ring test\nstation,portion,value\nTH-DRY1,1,45.2\n\nTH-MILL,1,45.9\r\n");
    expect(found).toEqual({
      ok: true,
      value: [
        { station: "TH-DRY1", figure: "value", value: 45.2 },
        { station: "TH-MILL", figure: "value", value: 45.9 },
      ],
    });
  });

  test("several figures, columns in any order, semicolons with decimal commas, a byte-order mark", () => {
    const found = read("\ufeffvalue;figure;station\n45,2;passingPct@500;A\n0,7;d50;A\n");
    expect(found).toMatchObject({
      ok: true,
      value: [
        { station: "A", figure: "passingPct@500", value: 45.2 },
        { station: "A", figure: "d50", value: 0.7 },
      ],
    });
  });

  test.each([
    ["", "is empty"],
    ["# nothing\n", "has no header line: start with station,portion,value"],
    ["station,value\n", "line 1: no result stands below the header"],
    ["station,result\nA,1\n", 'line 1: unknown column "result": known are station, portion, figure, value'],
    ["station,portion\nA,1\n", "line 1: needs the column value: known are station, portion, figure, value"],
    ["station,value,value\nA,1,2\n", "line 1: the column value stands twice"],
    ["station,value\nA,1\nB\n", "line 3: has 1 cells, the header 2"],
    ["station,value\n,1\n", "line 2: station: is empty"],
    ["station,portion,value\nA,1,2\nA,1,3\n", 'line 3: portion "1" of A stands twice'],
  ])("%j is refused: %s", (text, reason) => expect(refusal(text)).toBe(reason));

  test("what is no number, and what a terminal would obey, is refused with its place", () => {
    expect(refusal("station,value\nA,about 3\n")).toMatch(/^line 2: value: /);
    expect(refusal("station,value\nA,1,5\n")).toMatch(/^line 2: /);
    expect(refusal("station,value\nA\u001b[2J,1\n")).toBe("line 2: station: holds a control character");
  });

  test("what was written is what is read", () => {
    const station = fc.stringMatching(/^[A-Z][A-Z0-9-]{0,9}$/);
    const value = fc.integer({ min: -1e6, max: 1e6 }).map((n) => n / 1000);
    fc.assert(
      fc.property(fc.array(fc.record({ station, value }), { minLength: 1, maxLength: 30 }), (rows) => {
        const found = read(`station,value\n${rows.map((row) => `${row.station},${row.value}`).join("\n")}\n`);
        expect(found).toEqual({ ok: true, value: rows.map((row) => ({ ...row, figure: "value" })) });
      }),
    );
  });

  test("anything at all is read or refused with a reason, never thrown at", () =>
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        const found = readResultsCsv(bytes);
        expect(found.ok ? found.value.length : found.reason.length).toBeGreaterThan(0);
      }),
    ));
});
