import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { productionDay, productionDaysOf } from "../../src/record/productionDay.ts";

const berlin = { timeZone: "Europe/Berlin", dayBegins: "06:00" };
const dayOf = (at: string, clock = berlin) => {
  const day = productionDay(at, clock);
  return day.ok ? day.value : day.reason;
};

describe("the production day", () => {
  test.each([
    ["2026-11-24T06:00:00+01:00", "2026-11-24"],
    ["2026-11-24T05:59:59+01:00", "2026-11-23"],
    ["2026-11-24T05:59:59.999+01:00", "2026-11-23"],
    ["2026-11-24T23:59:59+01:00", "2026-11-24"],
    ["2026-11-25T00:00:00+01:00", "2026-11-24"],
    ["2026-11-25T03:12:05+01:00", "2026-11-24"],
    ["2027-01-01T02:00:00+01:00", "2026-12-31"],
    ["2028-03-01T05:00:00+01:00", "2028-02-29"],
  ])("%s belongs to %s", (at, day) => expect(dayOf(at)).toBe(day));

  test("a station whose day begins at midnight has calendar days", () => {
    const midnight = { timeZone: "Europe/Berlin", dayBegins: "00:00" };
    expect(dayOf("2026-11-24T00:00:00+01:00", midnight)).toBe("2026-11-24");
    expect(dayOf("2026-11-23T23:59:59+01:00", midnight)).toBe("2026-11-23");
  });

  test("counts by the station's zone, whatever offset the moment is written with", () => {
    expect(dayOf("2026-11-24T05:30:00Z")).toBe("2026-11-24"); // 06:30 in Berlin
    expect(dayOf("2026-11-23T23:30:00-05:00")).toBe("2026-11-23"); // 05:30 in Berlin
    expect(dayOf("2026-11-24T10:00:00+05:30")).toBe("2026-11-23"); // 05:30 in Berlin
  });

  test("summer time: the same wall clock, another offset", () => {
    expect(dayOf("2026-07-01T06:00:00+02:00")).toBe("2026-07-01");
    expect(dayOf("2026-07-01T05:30:00+02:00")).toBe("2026-06-30");
    expect(dayOf("2026-07-01T05:30:00+01:00")).toBe("2026-07-01"); // 06:30 there
  });

  // common practice, no source: the European Union changes its clocks at 01:00 UTC on the last Sundays of March and October
  describe("in the night when clocks go back (25 October 2026, 03:00 -> 02:00)", () => {
    const early = { timeZone: "Europe/Berlin", dayBegins: "02:30" };
    test("the day begins at the first 02:30", () => {
      expect(dayOf("2026-10-25T02:29:59+02:00", early)).toBe("2026-10-24");
      expect(dayOf("2026-10-25T02:30:00+02:00", early)).toBe("2026-10-25");
    });
    test("the repeated hour does not lead back into the day before", () =>
      expect(dayOf("2026-10-25T02:10:00+01:00", early)).toBe("2026-10-25"));
  });

  test("a beginning that the clock change skips is one hour later by the wall", () => {
    const skipped = { timeZone: "Europe/Berlin", dayBegins: "02:30" };
    expect(dayOf("2026-03-29T01:59:59+01:00", skipped)).toBe("2026-03-28");
    expect(dayOf("2026-03-29T03:29:59+02:00", skipped)).toBe("2026-03-28");
    expect(dayOf("2026-03-29T03:30:00+02:00", skipped)).toBe("2026-03-29");
  });

  test("never goes back while time goes on, through every clock change", () =>
    fc.assert(
      fc.property(
        fc.integer({ min: Date.UTC(2024, 0, 1), max: Date.UTC(2030, 0, 1) }),
        fc.integer({ min: 0, max: 6 * 3_600_000 }),
        fc.constantFrom("Europe/Berlin", "America/Chicago", "Australia/Lord_Howe", "Asia/Kolkata", "UTC"),
        fc.constantFrom("00:00", "02:30", "06:00", "22:00"),
        (from, laterMs, timeZone, dayBegins) => {
          const clock = { timeZone, dayBegins };
          const before = dayOf(new Date(from).toISOString(), clock);
          const after = dayOf(new Date(from + laterMs).toISOString(), clock);
          expect(after >= before).toBe(true);
        },
      ),
    ));

  test("is a day on which it can begin: within 25 hours after its beginning", () =>
    fc.assert(
      fc.property(fc.integer({ min: Date.UTC(2024, 0, 1), max: Date.UTC(2030, 0, 1) }), (atMs) => {
        const day = dayOf(new Date(atMs).toISOString());
        const beginsAtMs = Date.parse(`${day}T04:00:00Z`); // 06:00 in Berlin is 04:00 or 05:00 UTC
        expect(atMs - beginsAtMs).toBeGreaterThanOrEqual(0);
        expect(atMs - beginsAtMs).toBeLessThan(26 * 3_600_000);
      }),
    ));

  test("is refused for a zone that nobody knows, naming it", () => {
    const lost = productionDay("2026-11-24T06:00:00+01:00", { timeZone: "Tessel/Hollow", dayBegins: "06:00" });
    expect(lost).toMatchObject({ ok: false });
    expect(lost.ok ? "" : lost.reason).toContain("Tessel/Hollow");
  });

  test("is refused for what is no moment", () => expect(productionDay("yesterday", berlin).ok).toBe(false));
});

describe("the days of one station, asked one after the other", () => {
  test("are the same in whatever order moments come", () => {
    const zones = fc.constantFrom("Europe/Berlin", "America/Chicago", "Australia/Lord_Howe");
    const begins = fc.constantFrom("00:00", "02:30", "06:00", "22:00");
    const hour = fc.integer({ min: 0, max: 24 * 60 }).map((n) => Date.UTC(2026, 9, 23) + n * 3_600_000);
    fc.assert(
      fc.property(zones, begins, fc.array(hour, { minLength: 2, maxLength: 12 }), (timeZone, dayBegins, moments) => {
        const days = productionDaysOf({ timeZone, dayBegins });
        for (const atMs of moments) {
          const at = new Date(atMs).toISOString();
          expect(days(at)).toEqual(productionDay(at, { timeZone, dayBegins }));
        }
      }),
    );
  });

  test("are told to the last and the first instant of each", () => {
    const days = productionDaysOf(berlin);
    const told = ["2026-11-24T06:00:00+01:00", "2026-11-25T05:59:59.999+01:00", "2026-11-25T06:00:00+01:00"].map(days);
    expect(told.map((day) => (day.ok ? day.value : day.reason))).toEqual(["2026-11-24", "2026-11-24", "2026-11-25"]);
  });

  test("are refused for what is no moment, whatever day was found before", () => {
    const days = productionDaysOf(berlin);
    days("2026-11-24T06:00:00+01:00");
    expect(days("yesterday").ok).toBe(false);
  });
});
