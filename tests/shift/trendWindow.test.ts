import { describe, expect, test } from "vitest";
import {
  otherUnit,
  TEST_STEPS,
  windowBegins,
  windowOf,
  ZOOM_UNITS,
  type Zoom,
  zoomed,
} from "../../src/shift/trendWindow.ts";

const PLANT = {
  timeZone: "Europe/Berlin",
  dayBegins: "06:00",
  shifts: [
    { name: "early", begins: "06:00", ends: "14:00" },
    { name: "late", begins: "14:00", ends: "22:00" },
    { name: "night", begins: "22:00", ends: "06:00" },
  ],
};
/** A test every four hours from 6:00 on, for so many production days. */
const everyFourHours = (days: number) =>
  Array.from({ length: days * 6 }, (_, i) => {
    const at = new Date(Date.UTC(2026, 10, 1, 5) + i * 4 * 3_600_000).toISOString();
    const day = new Date(Date.UTC(2026, 10, 1) + Math.floor(i / 6) * 86_400_000).toISOString().slice(0, 10);
    return { at, day };
  });
const TESTS = everyFourHours(40);
const shown = (zoom: Zoom, beyond = 0, tests = TESTS) => windowOf(tests, zoom, beyond, PLANT);
const count = (zoom: Zoom, beyond = 0) => {
  const { from, to } = shown(zoom, beyond);
  return to - from + 1;
};

describe("the window on a trend", () => {
  test("ends with the newest test and holds so many", () => {
    expect(shown({ unit: "tests", many: 50 })).toEqual({ from: 190, to: 239 });
    expect(shown({ unit: "tests", many: 50 }, 10)).toEqual({ from: 180, to: 229 });
    expect(shown({ unit: "tests", many: 800 })).toEqual({ from: 0, to: 239 });
  });

  test.each([
    ["shifts", 1, 2],
    ["shifts", 2, 4],
    ["shifts", 3, 6],
    ["days", 1, 6],
    ["days", 3, 18],
    ["weeks", 1, 42],
    ["weeks", 2, 84],
  ] as const)("of %s, %d of them, holds %d tests where one is made every four hours", (unit, many, tests) =>
    expect(count({ unit, many })).toBe(tests),
  );

  test("of a month begins with its first production day, of two with that of the month before", () => {
    const from = (many: number) => TESTS[shown({ unit: "months", many }).from]?.day;
    expect(from(1)).toBe("2026-12-01");
    expect(from(2)).toBe("2026-11-01");
  });

  test("ends with the shift of the test that it ends with, not with the clock", () =>
    expect(count({ unit: "shifts", many: 1 }, 1)).toBe(1));

  test("of a night across the autumn clock change is one shift of nine hours", () => {
    const night = [
      "2026-10-24T20:30:00Z",
      "2026-10-24T23:30:00Z",
      "2026-10-25T00:30:00Z",
      "2026-10-25T01:30:00Z",
      "2026-10-25T04:30:00Z",
    ];
    const tests = [
      { at: "2026-10-24T19:30:00Z", day: "2026-10-24" },
      ...night.map((at) => ({ at, day: "2026-10-24" })),
    ];
    expect(windowOf(tests, { unit: "shifts", many: 1 }, 0, PLANT)).toEqual({ from: 1, to: 5 });
  });

  test("of nothing is empty", () => {
    expect(shown({ unit: "tests", many: 50 }, 0, [])).toEqual({ from: 0, to: -1 });
    expect(shown({ unit: "weeks", many: 1 }, 0, [])).toEqual({ from: 0, to: -1 });
  });

  test("never ends before its first test, however far it is moved", () => {
    for (const unit of ZOOM_UNITS) {
      const { from, to } = shown({ unit, many: 1 }, 9999);
      expect([from, to]).toEqual([0, 0]);
    }
  });

  test("tells with which production day it begins, to be read that far", () => {
    const newest = { at: "2026-11-24T01:00:00+01:00", day: "2026-11-23" };
    const begins = (unit: Zoom["unit"], many: number) => windowBegins(newest, { unit, many }, PLANT);
    expect(begins("tests", 50)).toBeNull();
    expect(begins("shifts", 1)).toBe("2026-11-23");
    expect(begins("shifts", 4)).toBe("2026-11-22");
    expect(begins("days", 3)).toBe("2026-11-21");
    expect(begins("weeks", 1)).toBe("2026-11-17");
    expect(begins("months", 1)).toBe("2026-11-01");
    expect(begins("months", 12)).toBe("2025-12-01");
  });
});

describe("zooming", () => {
  test("goes by steps and stops at the ends", () => {
    const widest = TEST_STEPS.at(-1) ?? 0;
    expect(zoomed({ unit: "tests", many: 50 }, 1)).toEqual({ unit: "tests", many: 100 });
    expect(zoomed({ unit: "tests", many: 50 }, -1)).toEqual({ unit: "tests", many: 20 });
    expect(zoomed({ unit: "tests", many: widest }, 1).many).toBe(widest);
    expect(zoomed({ unit: "days", many: 1 }, -1).many).toBe(1);
  });

  test("goes through all units and comes round", () => {
    let zoom: Zoom = { unit: "tests", many: 50 };
    const seen = ZOOM_UNITS.map(() => {
      zoom = otherUnit(zoom);
      return zoom.unit;
    });
    expect(seen).toEqual(["shifts", "days", "weeks", "months", "tests"]);
  });
});
