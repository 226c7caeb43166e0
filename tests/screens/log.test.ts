import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { IndexRow } from "../../src/record/indexRow.ts";
import { testOpened } from "../../src/screens/answers.ts";
import { matching, monthRead, wordsRead } from "../../src/screens/log/logPlace.ts";
import { mayHold } from "../../src/screens/log/mayHold.ts";
import { wordsOf } from "../../src/store/monthWords.ts";
import { anApp, recordedEntry, recordedRow, Stage } from "./stage.ts";

const row = (number: number, change: Partial<IndexRow> = {}): IndexRow => ({ ...recordedRow(1), number, ...change });
const OCTOBER = ["2026-11", "2026-10", "2026-09"];

/** The log with its newest month read; as the store gives it, oldest first. */
function inLog(rows: readonly IndexRow[], months: readonly string[] = ["2026-11"]): Stage {
  const stage = new Stage(anApp({ months })).types("l");
  return reads(stage, "2026-11", rows);
}
function reads(stage: Stage, month: string, rows: readonly IndexRow[]): Stage {
  const { app, effects } = monthRead(stage.app, month, rows);
  stage.app = app;
  stage.effects.push(...effects);
  return stage;
}
const asked = (stage: Stage) => stage.effects.flatMap((effect) => (effect.do === "readMonth" ? [effect.month] : []));
const numbersOf = (stage: Stage) =>
  stage.effects.flatMap((effect) => (effect.do === "open" ? [effect.row.number] : []));

const MIXED = [
  row(1, { product: "TH-0510", lot: "4470-A", line: "Dryer 1", at: "2026-11-22T02:01:00+01:00" }),
  row(2, { product: "TH-MAS", lot: "0911-B", line: "Screen deck B", at: "2026-11-23T02:02:00+01:00", verdict: "fail" }),
  row(3, { product: "TH-BAR", lot: "M2-7", line: "Mill 2", at: "2026-11-23T03:03:00+01:00", by: "ML" }),
  row(4, {
    product: "TH-0510",
    lot: "4471-B",
    line: "Dryer 1",
    at: "2026-11-24T02:04:00+01:00",
    test: "invalid",
    verdict: "not judged",
    disposition: "resample",
  }),
];
const shownRows = ({ app: { place } }: Stage) => (place.name === "log" ? matching(place).length : 0);
/** Which of the mixed rows are on screen, from top to bottom. */
const shown = (stage: Stage) =>
  stage.lines({ columns: 120, rows: 24 }).flatMap((text) => {
    const lot = MIXED.find((one) => text.includes(` ${one.lot} `));
    return lot ? [lot.number] : [];
  });

describe("the log", () => {
  test("asks for its newest month and says that it is reading", () => {
    const stage = new Stage(anApp({ months: OCTOBER })).types("l");
    expect(asked(stage)).toEqual(["2026-11"]);
    expect(stage.screen()).toContain("0 tests · reading ...");
  });

  test("shows the tests newest first, each with its verdict and what became of the product", () => {
    const stage = inLog(MIXED);
    expect(shown(stage)).toEqual([4, 3, 2, 1]);
    const screen = stage.screen({ columns: 120, rows: 24 });
    expect(screen).toMatch(/TH-MAS .* FAIL ✗/);
    expect(screen).toMatch(/4471-B .* invalid ! .* resampled/);
    expect(screen).toContain("4 tests · the whole log");
  });

  test.each([
    ["th-0510", [4, 1]],
    ["0911", [2]],
    ["dryer", [4, 1]],
    ["2026-11-23", [3, 2]],
    ["fail", [2]],
    ["invalid", [4]],
    ["resampled", [4]],
    ["ml", [3]],
    ["dryer 4471", [4]],
    ["2026-11-23 fail", [2]],
    ["nothing like it", []],
  ])("narrowed by %j shows %j: product, lot, line, date, verdict, what was done, initials", (filter, numbers) => {
    const stage = inLog(MIXED).types(filter);
    expect(shown(stage)).toEqual(numbers);
    expect(stage.screen()).toContain(`${numbers.length} ${numbers.length === 1 ? "test" : "tests"}`);
  });

  test("widens again by Backspace, and Esc clears the filter before it leaves", () => {
    const stage = inLog(MIXED).types("failx");
    expect(shown(stage)).toEqual([]);
    expect(shown(stage.presses("backspace"))).toEqual([2]);
    expect(shown(stage.presses("escape"))).toHaveLength(4);
    expect(stage.presses("escape").app.place.name).toBe("bench");
  });

  test("takes a scanned lot as its filter", () => {
    expect(shown(inLog(MIXED).types("xx").scans(" 4471-B "))).toEqual([4]);
  });

  test("opens the test that the mark points at, in the narrowed list too", () => {
    expect(numbersOf(inLog(MIXED).presses("down", "enter"))).toEqual([3]);
    expect(numbersOf(inLog(MIXED).types("0510").presses("down", "enter"))).toEqual([1]);
    const none = inLog(MIXED).types("nothing like it").presses("enter");
    expect(numbersOf(none)).toEqual([]);
    expect(none.app.message).toBe("nothing matches");
  });

  test("keeps the mark within the list", () => {
    const stage = inLog(MIXED).presses("up", "up");
    expect(stage.app.place).toMatchObject({ at: 0 });
    expect(stage.presses("page down", "down").app.place).toMatchObject({ at: 3 });
    expect(stage.types("fail").app.place).toMatchObject({ at: 0 });
  });

  test("opens for reading only as well", () => {
    const stage = inLog(MIXED);
    stage.app = { ...stage.app, readOnly: "another window has this station open" };
    expect(numbersOf(stage.presses("enter"))).toEqual([4]);
  });
});

describe("months of the log", () => {
  const month = (from: number, count: number) => Array.from({ length: count }, (_, i) => row(from + i));

  test("come one after the other until a screen and some is full", () => {
    const stage = inLog(month(101, 40), OCTOBER);
    expect(asked(stage)).toEqual(["2026-11", "2026-10"]);
    reads(stage, "2026-10", month(61, 40));
    expect(asked(stage)).toEqual(["2026-11", "2026-10"]);
    expect(stage.screen()).toContain("80 tests · more as you scroll");
  });

  test("come when one scrolls near the end, and only once", () => {
    const stage = reads(inLog(month(101, 40), OCTOBER), "2026-10", month(61, 40));
    stage.presses("page down", "page down", "page down");
    expect(asked(stage)).toEqual(["2026-11", "2026-10"]);
    stage.presses("page down", "page down", "down");
    expect(asked(stage)).toEqual(["2026-11", "2026-10", "2026-09"]);
    reads(stage, "2026-09", month(1, 60));
    expect(stage.screen()).toContain("140 tests · the whole log");
    expect(stage.app.place).toMatchObject({ at: 76 });
  });

  test("come as long as a filter leaves the screen empty, back to the first month", () => {
    const stage = reads(inLog(month(101, 40), OCTOBER), "2026-10", month(61, 40)).types("0911");
    expect(asked(stage).at(-1)).toBe("2026-09");
    reads(stage, "2026-09", [row(1, { lot: "0911-B" })]);
    expect(stage.screen()).toContain("1 test · the whole log");
  });

  const dated = (number: number, day: string) => row(number, { day, at: `${day}T10:00:00+01:00` });

  test("of a date that is typed are read before those in between, and enough if they hold anything", () => {
    const stage = inLog([dated(90, "2026-11-20")], ["2026-11", "2026-10", "2026-09", "2026-08", "2026-07"]);
    reads(stage, "2026-10", month(30, 60));
    const before = asked(stage).length;
    stage.scans("2026-08-12", false);
    expect(asked(stage).slice(before)).toEqual(["2026-08"]);
    reads(stage, "2026-08", [dated(7, "2026-08-12"), dated(8, "2026-08-13")]);
    expect(asked(stage).slice(before)).toEqual(["2026-08", "2026-07"]);
    reads(stage, "2026-07", [dated(2, "2026-07-31")]);
    expect(asked(stage).slice(before)).toEqual(["2026-08", "2026-07"]);
    expect(stage.screen()).toContain("1 test · more as you scroll");
  });

  test("of a date that holds nothing are followed by the others: a lot can be named like a date", () => {
    const stage = inLog([dated(90, "2026-11-20")], ["2026-11", "2026-10", "2026-09"]);
    reads(stage, "2026-10", month(30, 60));
    stage.types("2026-10-02");
    reads(stage, "2026-09", [row(3, { lot: "2026-10-02-A", day: "2026-09-30" })]);
    expect(stage.screen()).toContain("1 test");
    expect(stage.screen()).toMatch(/TH-0510 +2026-10/);
  });

  test("leave no gap that doesn't show once the date is gone from the filter", () => {
    const stage = inLog([dated(90, "2026-11-20")], ["2026-11", "2026-10", "2026-09", "2026-08"]);
    reads(
      stage,
      "2026-10",
      Array.from({ length: 60 }, (_, i) => dated(30 + i, "2026-10-15")),
    );
    stage.types("2026-08");
    reads(stage, "2026-08", [dated(7, "2026-08-12")]);
    expect(stage.screen()).toContain("2026-08-12");
    stage.presses("escape");
    expect(stage.screen()).toContain("61 tests · more as you scroll");
    for (let i = 0; i < 6; i++) stage.presses("page down");
    expect(stage.screen()).not.toContain("2026-08-12");
    expect(asked(stage).at(-1)).toBe("2026-09");
    reads(stage, "2026-09", [dated(20, "2026-09-10")]);
    stage.presses("page down");
    const lines = stage.lines().filter((text) => /2026-0[89]/.test(text));
    expect(lines.map((text) => /2026-0\d/.exec(text)?.[0])).toEqual(["2026-09", "2026-08"]);
  });

  test("that come one by one are searched each once, and what is typed on narrows what matched before", () => {
    const stage = inLog(month(101, 40), OCTOBER).types("0911");
    reads(
      stage,
      "2026-10",
      [...month(61, 40), row(60, { lot: "0911-B" })].toSorted((a, b) => a.number - b.number),
    );
    reads(stage, "2026-09", [row(1, { lot: "0911-C" }), row(2, { lot: "0912" })]);
    expect(stage.screen()).toContain("2 tests · the whole log");
    expect(stage.types("-c").screen()).toContain("1 test ·");
    expect(stage.presses("backspace", "backspace").screen()).toContain("2 tests ·");
    expect(stage.presses("backspace").screen()).toContain("3 tests ·");
  });

  test("that arrive while the operator looks at a record or at the help are there when he is back", () => {
    const away = [
      (stage: Stage) => {
        stage.app = testOpened(stage.app, { entry: recordedEntry(7), later: [] });
        return stage;
      },
      (stage: Stage) => stage.presses("f1"),
    ];
    for (const leaves of away) {
      const stage = leaves(inLog(month(101, 40), OCTOBER));
      reads(stage, "2026-10", month(61, 40));
      expect(stage.app.place.name).not.toBe("log");
      stage.presses("escape");
      expect(stage.screen()).toContain("80 tests · more as you scroll");
      for (let i = 0; i < 6; i++) stage.presses("page down");
      expect(asked(stage)).toEqual(["2026-11", "2026-10", "2026-09"]);
    }
  });

  test("that arrive after the log was left change nothing", () => {
    const stage = inLog(month(101, 40), OCTOBER).presses("escape");
    const before = stage.app;
    expect(reads(stage, "2026-10", month(61, 40)).app).toEqual(before);
  });
});

describe("months that can't hold what is looked for", () => {
  const state = { test: "valid", verdict: "pass", disposition: "release" } as const;
  const known = (...words: string[]) => ({ words: ["TH-0510", "Dryer 1", ...words], states: [state] });
  const WORDS = new Map([
    ["2026-10", known("4470-C")],
    ["2026-09", known("4468-A")],
  ]);
  /** Enough rows that no other month is asked for before something is typed. */
  const MANY = Array.from({ length: 60 }, (_, i) => row(i + 1));
  const withWords = (months: readonly string[]) => {
    const stage = inLog(MANY, months);
    stage.app = wordsRead(stage.app, WORDS).app;
    stage.effects.length = 0;
    return stage;
  };

  test("are not read: the lot of an old month brings that month, past those that lack it", () => {
    const stage = withWords(["2026-11", "2026-10", "2026-09", "2026-08"]).types("4468-A");
    expect(asked(stage)).toEqual(["2026-09"]);
    reads(stage, "2026-09", [row(99, { lot: "4468-A", day: "2026-09-10", at: "2026-09-10T02:00:00+02:00" })]);
    expect(stage.screen()).toContain("4468-A");
    expect(asked(stage)).toEqual(["2026-09", "2026-08"]); // of which nothing is known
  });

  test("are as good as searched: where no other is left the whole log was", () => {
    const stage = withWords(OCTOBER).types("no-such-lot");
    expect(asked(stage)).toEqual([]);
    expect(stage.screen()).toContain("0 tests · the whole log");
  });

  test.each([
    ["4470-c", "2026-10", true],
    ["4470-c th-0510", "2026-10", true],
    ["4468", "2026-10", false],
    ["2026-10-3", "2026-10", true],
    ["2026-11-01", "2026-10", true],
    ["2026-11-02", "2026-10", false],
    ["pas", "2026-10", true],
    ["ass", "2026-10", false],
    ["released", "2026-10", true],
    ["fail", "2026-10", false],
    ["", "2026-10", true],
    ["whatever", "2026-08", true],
  ])("%s in %s: %s", (filter, month, may) => {
    expect(mayHold(filter, month, WORDS.get(month))).toBe(may);
  });

  test("never lacks a month that has a row which matches", () => {
    const word = fc.constantFrom(
      "TH-0510",
      "4470",
      "Dryer",
      "1",
      "pass",
      "released",
      "2026-10",
      "KO",
      "x",
      "corrected",
    );
    const some = fc.record({
      lot: fc.constantFrom("4470-A", "X9", ""),
      by: fc.constantFrom("KO", "ML"),
      verdict: fc.constantFrom("pass" as const, "fail" as const),
      day: fc.constantFrom("2026-10-05", "2026-10-31"),
      amended: fc.constantFrom(undefined, { corrections: 1, voided: false, waived: false }),
    });
    fc.assert(
      fc.property(fc.array(some, { minLength: 1, maxLength: 4 }), fc.array(word, { maxLength: 3 }), (rows, words) => {
        const full = rows.map(({ amended, ...change }, i) =>
          row(i + 1, { ...change, at: `${change.day}T23:00:00+01:00`, ...(amended ? { amended } : {}) }),
        );
        const filter = words.join(" ");
        const stage = inLog(full.toReversed(), ["2026-11"]).types(filter);
        const isFound = shownRows(stage) > 0;
        if (isFound) expect(mayHold(filter, "2026-10", wordsOf(full))).toBe(true);
      }),
      { numRuns: 60 },
    );
  });
});
