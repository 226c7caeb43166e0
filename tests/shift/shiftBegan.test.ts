import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { productionDay } from "../../src/record/productionDay.ts";
import { dayBegan, type Schedule, shiftBegan } from "../../src/shift/schedule.ts";

const CLOCK: Schedule = {
  timeZone: "Europe/Berlin",
  dayBegins: "06:00",
  shiftBegins: ["06:00", "14:00", "22:00"],
};
const shift = (at: string, change: Partial<Schedule> = {}) => shiftBegan(at, { ...CLOCK, ...change });
const day = (at: string, change: Partial<Schedule> = {}) => dayBegan(at, { ...CLOCK, ...change });

describe("the shift of a moment", () => {
  test.each([
    ["2026-11-24T06:00:00+01:00", "2026-11-24T06:00:00+01:00"],
    ["2026-11-24T05:59:59+01:00", "2026-11-23T22:00:00+01:00"],
    ["2026-11-24T13:59:59+01:00", "2026-11-24T06:00:00+01:00"],
    ["2026-11-24T14:00:00+01:00", "2026-11-24T14:00:00+01:00"],
    ["2026-11-24T23:30:00+01:00", "2026-11-24T22:00:00+01:00"],
    ["2026-11-25T00:00:00+01:00", "2026-11-24T22:00:00+01:00"],
    ["2027-01-01T03:12:00+01:00", "2026-12-31T22:00:00+01:00"],
  ])("%s began at %s: the night shift crosses midnight", (at, began) => {
    expect(shift(at)).toBe(began);
  });

  test("is found in whatever order a station lists its shifts", () => {
    const shiftBegins = ["22:00", "06:00", "14:00"];
    expect(shift("2026-11-25T00:00:00+01:00", { shiftBegins })).toBe("2026-11-24T22:00:00+01:00");
  });

  test("is the day where a station names no shifts", () => {
    const none = { timeZone: CLOCK.timeZone, dayBegins: CLOCK.dayBegins };
    expect(shiftBegan("2026-11-25T00:00:00+01:00", none)).toBe("2026-11-24T06:00:00+01:00");
  });

  test("counts by the station's clock, whatever offset the moment is written with", () => {
    expect(shift("2026-11-24T05:30:00Z")).toBe("2026-11-24T06:00:00+01:00");
    expect(shift("2026-11-23T23:30:00-05:00")).toBe("2026-11-23T22:00:00+01:00");
  });

  test("of one who works from midnight to midnight begins at midnight", () => {
    const shiftBegins = ["00:00", "12:00"];
    expect(shift("2026-11-24T00:00:00+01:00", { shiftBegins })).toBe("2026-11-24T00:00:00+01:00");
    expect(shift("2026-11-23T23:59:59+01:00", { shiftBegins })).toBe("2026-11-23T12:00:00+01:00");
  });
});

describe("when clocks change", () => {
  test("the night shift keeps its beginning, told with the offset that held then", () => {
    expect(shift("2026-03-29T05:59:59+02:00")).toBe("2026-03-28T22:00:00+01:00");
    expect(shift("2026-10-25T05:59:59+01:00")).toBe("2026-10-24T22:00:00+02:00");
  });

  test("a beginning that is skipped is taken an hour later", () => {
    const shiftBegins = ["02:30", "14:30"];
    expect(shift("2026-03-29T01:59:59+01:00", { shiftBegins })).toBe("2026-03-28T14:30:00+01:00");
    expect(shift("2026-03-29T03:29:59+02:00", { shiftBegins })).toBe("2026-03-28T14:30:00+01:00");
    expect(shift("2026-03-29T03:30:00+02:00", { shiftBegins })).toBe("2026-03-29T03:30:00+02:00");
  });

  test("a beginning that comes twice is the first of the two, and the hour repeated leads back to no former shift", () => {
    const shiftBegins = ["02:30", "14:30"];
    expect(shift("2026-10-25T02:29:59+02:00", { shiftBegins })).toBe("2026-10-24T14:30:00+02:00");
    expect(shift("2026-10-25T02:30:00+02:00", { shiftBegins })).toBe("2026-10-25T02:30:00+02:00");
    expect(shift("2026-10-25T02:15:00+01:00", { shiftBegins })).toBe("2026-10-25T02:30:00+02:00");
    expect(shift("2026-10-25T02:45:00+01:00", { shiftBegins })).toBe("2026-10-25T02:30:00+02:00");
  });
});

describe("the production day of a moment", () => {
  test("began at its own hour, on this date or the one before", () => {
    expect(day("2026-11-24T06:00:00+01:00")).toBe("2026-11-24T06:00:00+01:00");
    expect(day("2026-11-24T05:59:59+01:00")).toBe("2026-11-23T06:00:00+01:00");
    expect(day("2026-03-29T05:00:00+02:00")).toBe("2026-03-28T06:00:00+01:00");
  });
});

test("in a zone that nobody knows the moment's own offset is the clock, not a crash", () => {
  const timeZone = "Europe/Berlinn";
  expect(shift("2026-11-24T05:59:59+01:00", { timeZone })).toBe("2026-11-23T22:00:00+01:00");
  expect(day("2026-11-24T06:30:00Z", { timeZone })).toBe("2026-11-24T06:00:00+00:00");
});

const anyMoment = fc
  .integer({ min: Date.parse("2020-01-01T00:00:00Z"), max: Date.parse("2035-01-01T00:00:00Z") })
  .map((ms) => new Date(ms).toISOString());
const anyTime = fc
  .tuple(fc.integer({ min: 0, max: 23 }), fc.constantFrom("00", "30"))
  .map(([hour, minute]) => `${String(hour).padStart(2, "0")}:${minute}`);
const anyClock: fc.Arbitrary<Schedule> = fc.record({
  timeZone: fc.constantFrom("Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "UTC"),
  dayBegins: anyTime,
  shiftBegins: fc.uniqueArray(anyTime, { minLength: 1, maxLength: 4 }),
});

test("whenever: a shift began at most 25 hours and a half before, and so did its day", () => {
  fc.assert(
    fc.property(anyMoment, anyClock, (at, clock) => {
      for (const began of [shiftBegan(at, clock), dayBegan(at, clock)]) {
        const agoMs = Date.parse(at) - Date.parse(began);
        expect(agoMs >= 0 && agoMs <= 25.5 * 3_600_000).toBe(true);
      }
    }),
    { numRuns: 80 },
  );
});

test("whenever: the day that began is the production day under which the log files the moment", () => {
  fc.assert(
    fc.property(anyMoment, anyClock, (at, clock) => {
      const filed = productionDay(at, clock);
      expect(filed.ok && filed.value).toBe(dayBegan(at, clock).slice(0, 10));
    }),
    { numRuns: 80 },
  );
});
