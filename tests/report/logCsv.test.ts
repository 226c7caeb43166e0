import { parse } from "csv-parse/sync";
import { describe, expect, test } from "vitest";
import { type LogEntry, LogEntrySchema } from "../../src/record/logEntry.ts";
import { LOG_CSV_HEADING, logCsvRow } from "../../src/report/logCsv.ts";
import { entryOf } from "../record/everyKind.ts";
import { recordedEntry } from "../screens/stage.ts";

const rowsOf = (...texts: string[]): Record<string, string>[] =>
  parse([LOG_CSV_HEADING, ...texts].join(""), { columns: true, record_delimiter: "\r\n" });

describe("the log as CSV", () => {
  test("tells of a test what was signed, and which one it repeats", () => {
    const entry = recordedEntry(3, "4471-B");
    const of = { testId: "t-1", day: entry.day, number: 1 };
    const [row] = rowsOf(logCsvRow({ ...entry, test: { ...entry.test, retest: { way: "resample", of } } }));
    expect(row).toMatchObject({
      number: "3",
      kind: "test",
      product: "TH-0510",
      lot: "4471-B",
      line: "Dryer 1",
      test: "valid",
      verdict: "pass",
      disposition: "release",
      retest: "resample, repeats no. 1",
      loss_pct: "0.1",
    });
  });

  test("has a row of the same columns for every kind of entry", () => {
    const kinds = LogEntrySchema.options.map(({ shape }) => shape.kind.value);
    const sealed = { number: 9, day: "2026-11-24", station: "TH-DRY1", previous: "0".repeat(64) };
    const rows = rowsOf(...kinds.map((kind) => logCsvRow({ ...entryOf(kind), ...sealed } as LogEntry)));
    expect(rows.map(({ kind }) => kind)).toEqual(kinds);
    expect(rows.every(({ what }) => what !== "")).toBe(true);
  });

  test("gives a spreadsheet no formula to run", () => {
    const entry = recordedEntry(3, "=1+1");
    expect(rowsOf(logCsvRow(entry))[0]?.lot).toBe("'=1+1");
  });
});
