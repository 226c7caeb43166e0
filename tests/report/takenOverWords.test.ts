import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import { sealOf } from "../../src/record/seal.ts";
import type { TestRecord } from "../../src/record/test.ts";
import { LOG_CSV_HEADING, logCsvRow } from "../../src/report/logCsv.ts";
import { recordPage } from "../../src/report/recordPage.ts";
import { takenOverWords } from "../../src/report/takenOverWords.ts";
import { trailLine } from "../../src/report/trailWords.ts";
import { recordedEntry } from "../screens/stage.ts";

const entry = recordedEntry(3, "4471-B");
const from = { number: 57, at: "2026-11-24T02:12:05+01:00" };

/** The recorded test with the empty masses of these rows taken over. */
function takenOver(...ums: readonly number[]): TestRecord {
  const trail = entry.test.trail.map((item) =>
    item.field === "emptyG" && ums.includes(item.apertureUm ?? -1) ? { ...item, takenOver: from } : item,
  );
  return { ...entry.test, trail };
}

describe("a test whose empty masses were taken over says so", () => {
  const some = takenOver(1400, 0);

  test("in words, row by row, and nothing where all were weighed", () => {
    expect(takenOverWords(some)).toEqual([
      "empty masses taken over from no. 57, weighed 2026-11-24 02:12: 1.40 mm, pan",
    ]);
    expect(takenOverWords(entry.test)).toEqual([]);
  });

  test("on its trail", () => {
    const item = some.trail.find(({ takenOver: over }) => over !== undefined);
    expect(item && trailLine(item)).toContain("1.40 mm empty  412.31  (taken over from no. 57, weighed 02:12)");
  });

  test("on its printed page and in the log as CSV", () => {
    const history = { entry: { ...entry, test: some }, later: [] };
    const look = { width: 100, curveOf: () => [], printed: "", original: false };
    const page = recordPage(history, { ...look, head: { number: 3, seal: sealOf(entry) } });
    expect(page).toContain("empty masses taken over from no. 57, weighed 2026-11-24 02:12: 1.40 mm, pan");
    expect(LOG_CSV_HEADING.trimEnd().split(",").at(-1)).toBe("empty_taken_over");
    expect(
      logCsvRow({ ...entry, test: some })
        .trimEnd()
        .split(",")
        .at(-1),
    ).toBe("57");
    expect(logCsvRow(entry).trimEnd().split(",").at(-1)).toBe("");
  });

  test("as a note of its result, which makes it neither invalid nor less sure", () => {
    const [plain, noted] = [assessTest(entry.test), assessTest(some)];
    if (!plain.ok || !noted.ok) throw new Error("not assessable");
    const notes = noted.value.notices.filter(({ id }) => id === "empties-taken-over");
    expect(notes).toEqual([
      {
        id: "empties-taken-over",
        severity: "note",
        text: "empty masses of no. 57 (11-24 02:12) taken over: grains left in the mesh since count as fraction",
      },
    ]);
    expect(noted.value.verdict).toEqual(plain.value.verdict);
    expect(plain.value.notices.some(({ id }) => id === "empties-taken-over")).toBe(false);
  });
});
