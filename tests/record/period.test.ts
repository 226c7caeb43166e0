import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayMayHold, holds, type Period, periodOf } from "../../src/record/period.ts";
import { productionDay } from "../../src/record/productionDay.ts";

const period = (since?: string, until?: string): Period => {
  const found = periodOf(since, until);
  if (!found.ok) throw new Error(found.reason);
  return found.value;
};
const entry = (at: string, day: string) => ({ at, day });
const night = entry("2026-11-24T03:12:05+01:00", "2026-11-23");

describe("a stretch of the log", () => {
  test("by days goes by the production day, both ends included", () => {
    expect(holds(period("2026-11-23", "2026-11-23"), night)).toBe(true);
    expect(holds(period("2026-11-24"), night)).toBe(false);
    expect(holds(period(undefined, "2026-11-22"), night)).toBe(false);
  });

  test("by moments goes by the instant, whatever offset it is written with, both ends included", () => {
    expect(holds(period("2026-11-24T02:12:05Z", "2026-11-24T03:12:05+01:00"), night)).toBe(true);
    expect(holds(period("2026-11-24T03:12:06+01:00"), night)).toBe(false);
    expect(holds(period(undefined, "2026-11-24T02:12:04Z"), night)).toBe(false);
  });

  test("without ends holds everything", () => {
    expect(holds(period(), night)).toBe(true);
    expect(dayMayHold(period(), "1999-01-01")).toBe(true);
  });

  test("passes over days that can't hold any of it", () => {
    expect(dayMayHold(period("2026-11-24"), "2026-11-23")).toBe(false);
    expect(dayMayHold(period("2026-11-24T03:00:00+01:00"), "2026-11-20")).toBe(false);
    expect(dayMayHold(period(undefined, "2026-11-24T03:00:00+01:00"), "2026-11-27")).toBe(false);
  });
});

test.each(["yesterday", "2026-02-30", "2026-11-24T03:12", "2026-11-24 03:12:05+01:00", "", "24.11.2026", "2026-1-1"])(
  "%j is no end",
  (text) => {
    const why = "is neither a day like 2026-11-24 nor a time with its offset like 2026-11-24T03:12:05+01:00";
    expect(periodOf(text, undefined)).toEqual({ ok: false, reason: `since "${text}" ${why}` });
    expect(periodOf(undefined, text)).toEqual({ ok: false, reason: `until "${text}" ${why}` });
  },
);

const moment = fc
  .date({ min: new Date("2000-01-01"), max: new Date("2099-12-31"), noInvalidDate: true })
  .map((date) => `${date.toISOString().slice(0, 19)}Z`);
const zone = fc.constantFrom("Europe/Berlin", "Pacific/Kiritimati", "Pacific/Pago_Pago", "America/New_York");
const hour = fc.integer({ min: 0, max: 23 }).map((h) => `${String(h).padStart(2, "0")}:00`);
const ends = fc.oneof(
  moment,
  moment.map((at) => at.slice(0, 10)),
  fc.constant(undefined),
);

test("a day that holds an entry of the period is never passed over, in any zone, whenever the day begins", () =>
  fc.assert(
    fc.property(moment, ends, ends, zone, hour, (at, since, until, timeZone, dayBegins) => {
      const day = productionDay(at, { timeZone, dayBegins });
      if (!day.ok) throw new Error(day.reason);
      const asked = period(since, until);
      if (holds(asked, entry(at, day.value))) expect(dayMayHold(asked, day.value)).toBe(true);
    }),
    { numRuns: 500 },
  ));
