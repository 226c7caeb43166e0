import { describe, expect, test } from "vitest";
import type { LogEntry, TestEntry } from "../../src/record/logEntry.ts";
import { entryLine } from "../../src/report/entryLine.ts";
import { product } from "./assessed.ts";

const sealed = {
  number: 7,
  at: "2026-11-24T03:12:05+01:00",
  day: "2026-11-23",
  station: "TH-DRY1",
  by: "KO",
  previous: "0".repeat(64),
};
const entry = (change: object = {}, signed: object = {}): TestEntry =>
  ({
    kind: "test",
    ...sealed,
    test: {
      product: product("TH-0510"),
      lot: "4471-B",
      line: "Dryer 1",
      disposition: "release",
      signed: { program: "0.1.0", test: "valid", product: "pass", lossPct: 0.1, ...signed },
      ...change,
    },
  }) as unknown as TestEntry;

describe("an entry on one line", () => {
  test("a test: whose, its verdict by word and sign, what was done", () =>
    expect(entryLine(entry())).toBe(
      "#7  2026-11-24 03:12  TH-0510 rev 3  lot 4471-B  Dryer 1  PASS ✓  release  by KO",
    ));

  test("a test without lot and line", () =>
    expect(entryLine(entry({ lot: "", line: "", disposition: null }))).toBe(
      "#7  2026-11-24 03:12  TH-0510 rev 3  PASS ✓  by KO",
    ));

  test("an invalid test says nothing of the product, whatever was signed", () =>
    expect(entryLine(entry({}, { test: "invalid" }))).toContain("TEST INVALID !  release"));

  test("a product that was loaded, and a remark", () => {
    const loaded: LogEntry = {
      kind: "product loaded",
      ...sealed,
      code: "TH-MAS",
      revision: 2,
      from: "x",
      sha256: "0".repeat(64),
    };
    expect(entryLine(loaded)).toBe("#7  2026-11-24 03:12  product loaded: TH-MAS revision 2  by KO");
    expect(entryLine({ kind: "note", ...sealed, text: "hopper empty" })).toContain("note: hopper empty  by KO");
  });

  test("an entry written by another hand can't draw on the terminal", () =>
    expect(entryLine({ kind: "note", ...sealed, text: "a\u001b[2Jb\nc" })).toBe(
      "#7  2026-11-24 03:12  note: a·b·c  by KO",
    ));
});
