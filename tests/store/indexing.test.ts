import { describe, expect, test } from "vitest";
import type { DayFile, LogEntry } from "../../src/record/logEntry.ts";
import { FIRST_PREVIOUS, sealOf } from "../../src/record/seal.ts";
import { NO_HEAD } from "../../src/store/chainEnd.ts";
import { chained } from "../../src/store/chained.ts";
import { type DrawRow, emptyMonth, withDay, withOnly } from "../../src/store/indexing.ts";
import { must } from "./opened.ts";
import { indexRowOf, note, testEntry } from "./records.ts";

const { sealed } = must(
  chained(NO_HEAD, "2026-11-24", "TH-DRY1", [testEntry("T-1"), note("x"), testEntry("T-2"), testEntry("T-3")]),
);
const day = (count: number): DayFile => ({
  schema: "sievewright.day/1",
  day: "2026-11-24",
  entries: sealed.slice(0, count),
});

/** Draws rows and remembers which entries it was asked for. */
function drawing(): { draw: DrawRow; asked: number[] } {
  const asked: number[] = [];
  const draw = (entry: LogEntry) => {
    asked.push(entry.number);
    return entry.kind === "test" ? indexRowOf(entry) : null;
  };
  return { draw, asked };
}

describe("the index with a day brought up to date", () => {
  test("has a row for each test and knows the day's last seal", () => {
    const index = withDay(emptyMonth("2026-11"), day(4), drawing().draw);
    expect(index.rows.map(({ testId }) => testId)).toEqual(["T-1", "T-2", "T-3"]);
    expect(index.days).toEqual({ "2026-11-24": { entries: 4, lastSeal: sealOf(sealed[3]!) } });
  });

  test("is the very same when the day is as it was: no row is drawn and nothing need be written", () => {
    const index = withDay(emptyMonth("2026-11"), day(4), drawing().draw);
    const { draw, asked } = drawing();
    expect(withDay(index, day(4), draw)).toBe(index);
    expect(asked).toEqual([]);
  });

  test("draws only what is new in a day that has grown", () => {
    const index = withDay(emptyMonth("2026-11"), day(3), drawing().draw);
    const { draw, asked } = drawing();
    expect(withDay(index, day(4), draw)).toEqual(withDay(emptyMonth("2026-11"), day(4), drawing().draw));
    expect(asked).toEqual([4]);
  });

  test("draws the whole day when it is shorter or another, and forgets its old rows", () => {
    const index = withDay(emptyMonth("2026-11"), day(4), drawing().draw);
    const shorter = withDay(index, day(1), drawing().draw);
    expect(shorter.rows.map(({ testId }) => testId)).toEqual(["T-1"]);
    const { draw, asked } = drawing();
    const other = must(
      chained({ ...NO_HEAD, number: 9 }, "2026-11-24", "TH-DRY1", [testEntry("T-9"), testEntry("T-8")]),
    );
    const redrawn = withDay(index, { ...day(0), entries: [...other.sealed] }, draw);
    expect(redrawn.rows.map(({ testId }) => testId)).toEqual(["T-9", "T-8"]);
    expect(asked).toEqual([10, 11]);
  });

  test("keeps the other days' rows, in the order of the numbers", () => {
    const later = must(chained({ ...NO_HEAD, number: 4 }, "2026-11-25", "TH-DRY1", [testEntry("T-5")]));
    const other: DayFile = { schema: "sievewright.day/1", day: "2026-11-25", entries: [...later.sealed] };
    const index = withDay(withDay(emptyMonth("2026-11"), other, drawing().draw), day(4), drawing().draw);
    expect(index.rows.map(({ number }) => number)).toEqual([1, 3, 4, 5]);
  });

  test("takes an empty day for one without a last seal", () =>
    expect(withDay(emptyMonth("2026-11"), day(0), drawing().draw).days["2026-11-24"]?.lastSeal).toBe(FIRST_PREVIOUS));
});

describe("the index without days that are gone", () => {
  const index = withDay(emptyMonth("2026-11"), day(4), drawing().draw);
  test("is the very same when none is", () => expect(withOnly(index, ["2026-11-24", "2026-11-25"])).toBe(index));
  test("has neither their rows nor their seals", () =>
    expect(withOnly(index, ["2026-11-25"])).toEqual(emptyMonth("2026-11")));
});
