import { describe, expect, test } from "vitest";
import type { LogEntry } from "../../src/record/logEntry.ts";
import { amendedWords, type HandoverExtras, handoverPage, signedPage } from "../../src/report/handoverPage.ts";
import { type HandoverSources, handoverOf } from "../../src/shift/handover.ts";
import { recordedRow } from "../screens/stage.ts";
import { inLanguage } from "../words/tongues.ts";

const SHIFT = {
  name: "night",
  began: "2026-11-23T22:00:00+01:00",
  ends: "2026-11-24T06:00:00+01:00",
  day: "2026-11-23",
};
const EXTRAS: HandoverExtras = {
  station: "TH-DRY1",
  plant: "Tessel Hollow (invented)",
  demo: true,
  printedAt: "2026-11-24T06:05:00+01:00",
  drifts: [],
  signOn: false,
};
const sealed = (number: number) => ({
  number,
  at: "2026-11-24T03:12:00+01:00",
  day: "2026-11-23",
  station: "TH-DRY1",
  by: "KO",
  previous: "0".repeat(64),
});

function page(change: Partial<HandoverSources>, extras: Partial<HandoverExtras> = {}): string {
  const sources = { shift: SHIFT, entries: [], holds: [], rows: [], drafts: [], late: [], head: null, ...change };
  return handoverPage(handoverOf(sources), { ...EXTRAS, ...extras }, 80);
}
const hold: LogEntry = {
  kind: "hold opened",
  ...sealed(8),
  product: "TH-0510",
  lot: "4471-B",
  line: "Dryer 1",
  of: null,
  owner: "quality",
  reason: "fail: d50 801 is above 790",
};

describe("the handover page", () => {
  test("of a shift without anything says so, and names in one line what it has nothing to tell of", () => {
    const text = page({});
    expect(text).toContain("HOLDS OPEN\n  none");
    expect(text).toContain("0 tests");
    expect(text).toContain("nothing to tell of: holds closed; changes of the line; balance and sieves;\n  drifts;");
    expect(text).toContain("the log is empty");
  });

  test("puts open holds and late samples before the tests, and the end of the chain last", () => {
    const late = [
      {
        rule: { product: "TH-MAS", line: "Screen deck B", everyHours: 2 },
        dueAt: "2026-11-24T01:00:00+01:00",
        takenAt: null,
        why: "every 2 h",
      },
    ];
    const at = "2026-11-24T03:21:00+01:00";
    const text = page({
      holds: [hold],
      late,
      rows: [{ ...recordedRow(3), at }],
      head: { number: 9, seal: "ab12".repeat(16) },
    });
    const order = [
      "HOLDS OPEN",
      "4471-B for quality",
      "LATE SAMPLES",
      "NOT TAKEN by the end",
      "\nTESTS\n",
      "seal ab12",
    ];
    const found = order.map((words) => text.indexOf(words));
    expect(found.every((at) => at >= 0)).toBe(true);
    expect(found).toEqual([...found].sort((a, b) => a - b));
  });

  test("counts what is read first, void tests apart", () => {
    const at = "2026-11-24T03:21:00+01:00";
    const row = recordedRow(3);
    const voided = { ...row, number: 4, at, amended: { corrections: 1, voided: true, waived: false } };
    const invalid = { ...row, number: 5, at, test: "invalid" as const };
    const text = page({ rows: [{ ...row, at, test: "valid", verdict: "fail" }, voided, invalid] });
    expect(text).toContain("3 tests, 1 fail, 1 invalid, 1 void");
    expect(text).toContain("VOID, corrected");
  });

  test("tells that initials are not checked, unless people sign on", () => {
    expect(page({})).toContain("initials are not checked by PIN");
    expect(page({}, { signOn: true })).not.toContain("initials are not checked by PIN");
  });

  test("lets no escape sequence out of a lot or a note, and wraps what is long", () => {
    const nasty: LogEntry = { ...hold, lot: "A\u001b[31mB", reason: "\u001b]0;x\u0007 worse" } as LogEntry;
    const text = page({ holds: [nasty], entries: [{ kind: "note", ...sealed(9), text: "word ".repeat(60).trim() }] });
    expect([...text].filter((c) => c.charCodeAt(0) < 32 && c !== "\n")).toEqual([]);
    for (const row of text.split("\n")) expect(row.length).toBeLessThanOrEqual(80);
  });
});

test("what later entries made of a test is said in words", () => {
  const words = (corrections: number, voided: boolean, waived: boolean) =>
    amendedWords({ amended: { corrections, voided, waived } });
  expect(words(0, false, false)).toBe("");
  expect(words(2, false, true)).toBe("waived, corrected");
  expect(words(1, true, false)).toBe("VOID, corrected");
  expect(amendedWords({})).toBe("");
});

describe("who signed the page", () => {
  const handed: LogEntry = {
    kind: "handover",
    ...sealed(20),
    at: "2026-11-24T06:01:00+01:00",
    shift: { name: "night", began: SHIFT.began, ends: SHIFT.ends },
    head: { number: 19, seal: "ab12".repeat(16) },
    pageSha256: "0".repeat(64),
    remark: "",
  };
  const taken = (by: string): LogEntry => ({
    kind: "handover taken",
    ...sealed(21),
    at: "2026-11-24T06:04:00+01:00",
    by,
    handover: { day: "2026-11-23", number: 20 },
  });

  test("is left to be written by hand while nobody has", () => {
    expect(page({})).toContain("handed over by ____________________   taken over by ____________________");
  });

  test("is told with the moment, and the other side stays open until it is taken", () => {
    expect(page({ entries: [handed] })).toContain("handed over by KO, 2026-11-24 06:01 (no. 20)   taken over by ____");
    const both = page({ entries: [handed, taken("ML")] });
    expect(both).toMatch(
      /handed over by KO, 2026-11-24 06:01 \(no. 20\)\ntaken over by ML, 2026-11-24 06:04 \(no. 21\)/,
    );
    expect(both).not.toContain("____");
    expect(both).not.toContain("one person");
  });

  test("is said where one person did both; it is not forbidden", () => {
    expect(page({ entries: [handed, taken("KO")] })).toContain("! handed over and taken over by one person");
  });

  test("is nobody's affair of another shift", () => {
    const other = { ...handed, shift: { ...SHIFT, name: "late", began: "2026-11-23T14:00:00+01:00" } } as LogEntry;
    expect(page({ entries: [other, taken("ML")] })).toContain("handed over by ____");
  });

  test("stands on the page that is kept, in place of the line to sign on", () => {
    const kept = signedPage(page({}), { by: "KO", at: "2026-11-24T06:01:00+01:00" });
    expect(kept).toContain("handed over by KO, 2026-11-24 06:01   taken over by ____");
    expect(kept.match(/handed over by/g)).toHaveLength(1);
  });
});

describe("the tests on the page", () => {
  test("say below their row which one they repeat", () => {
    const at = "2026-11-24T03:21:00+01:00";
    const rows = [{ ...recordedRow(3), at, retest: { way: "second portion" as const, number: 2 } }];
    expect(page({ rows })).toMatch(/\n {2}03:21 +3 .*\n {10,}second portion, repeats no. 2\n/);
  });

  test("pass unproven where nothing checked the test itself, as on the screens", () => {
    const rows = [{ ...recordedRow(3), at: "2026-11-24T03:21:00+01:00", test: "not checked" as const }];
    expect(page({ rows })).toContain("PASS unproven");
  });

  test("of a night in which the clock is changed are said to be in the order of the log", () => {
    const autumn = {
      name: "night",
      began: "2026-10-24T22:00:00+02:00",
      ends: "2026-10-25T06:00:00+01:00",
      day: "2026-10-24",
    };
    expect(page({ shift: autumn })).toContain("the clock is changed in this shift (UTC+02:00 to UTC+01:00)");
    expect(page({})).not.toContain("the clock is changed");
  });
});

test("is shown in the language of the screens, while what is signed stays in English", async () => {
  const shown = await inLanguage("de", () => page({ holds: [hold], entries: [hold] }));
  expect(shown).toContain("OFFENE SPERREN");
  expect(shown).toContain("24.11.2026 03:12");
  expect(shown).not.toMatch(/\bHOLDS\b|\bnone\b/);
  const english = page({});
  const signed = await inLanguage("de", () => signedPage(english, { by: "KO", at: EXTRAS.printedAt }));
  expect(signed).toContain("handed over by KO, 2026-11-24 06:05   taken over by");
});
