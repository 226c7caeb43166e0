import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { productionDay } from "../../src/record/productionDay.ts";
import { inShift, type Schedule, shiftAt, shiftBefore } from "../../src/shift/schedule.ts";

/** Three shifts in the week, one long day and one long night at the weekend. */
const PLAN: Schedule = {
  timeZone: "Europe/Berlin",
  dayBegins: "06:00",
  shifts: [
    { name: "early", on: ["mon", "tue", "wed", "thu", "fri"], begins: "06:00", ends: "14:00" },
    { name: "late", on: ["mon", "tue", "wed", "thu", "fri"], begins: "14:00", ends: "22:00" },
    { name: "night", on: ["mon", "tue", "wed", "thu", "fri"], begins: "22:00", ends: "06:00" },
    { name: "weekend day", on: ["sat", "sun"], begins: "06:00", ends: "18:00" },
    { name: "weekend night", on: ["sat", "sun"], begins: "18:00", ends: "06:00" },
  ],
};

const hours = ({ began, ends }: { began: string; ends: string }) => (Date.parse(ends) - Date.parse(began)) / 3_600_000;

describe("the shift of a moment", () => {
  test.each([
    ["2026-11-25T06:00:00+01:00", "early", "2026-11-25"],
    ["2026-11-25T13:59:59+01:00", "early", "2026-11-25"],
    ["2026-11-25T21:59:59+01:00", "late", "2026-11-25"],
    ["2026-11-25T23:30:00+01:00", "night", "2026-11-25"],
    ["2026-11-26T05:59:59+01:00", "night", "2026-11-25"],
    ["2026-11-28T05:00:00+01:00", "night", "2026-11-27"],
    ["2026-11-28T06:00:00+01:00", "weekend day", "2026-11-28"],
    ["2026-11-30T05:59:00+01:00", "weekend night", "2026-11-29"],
    ["2026-11-25T22:30:00Z", "night", "2026-11-25"],
  ])("%s is in the shift %s of the production day %s", (at, name, day) => {
    const shift = shiftAt(at, PLAN);
    expect(shift).toMatchObject({ name, day });
    expect(inShift(at, shift)).toBe(true);
  });

  test("of a night across the autumn clock change lasts nine hours, and both hours from 2 to 3 lie in it", () => {
    const nights: Schedule = { ...PLAN, shifts: [{ name: "night", begins: "22:00", ends: "06:00" }] };
    const summer = shiftAt("2026-10-25T02:30:00+02:00", nights);
    expect(summer).toEqual({
      name: "night",
      began: "2026-10-24T22:00:00+02:00",
      ends: "2026-10-25T06:00:00+01:00",
      day: "2026-10-24",
    });
    expect(shiftAt("2026-10-25T02:30:00+01:00", nights)).toEqual(summer);
    expect(hours(summer)).toBe(9);
  });

  test("of a night across the spring clock change lasts seven hours", () => {
    const nights: Schedule = { ...PLAN, shifts: [{ name: "night", begins: "22:00", ends: "06:00" }] };
    expect(hours(shiftAt("2026-03-29T04:00:00+02:00", nights))).toBe(7);
  });

  test("is named 'between shifts' where nobody works, from the one to the next", () => {
    const weekdays: Schedule = {
      ...PLAN,
      shifts: [{ name: "day", on: ["mon", "fri"], begins: "07:00", ends: "15:00" }],
    };
    expect(shiftAt("2026-11-25T12:00:00+01:00", weekdays)).toEqual({
      name: "between shifts",
      began: "2026-11-23T15:00:00+01:00",
      ends: "2026-11-27T07:00:00+01:00",
      day: "2026-11-23",
    });
  });

  test("is the later one where two overlap", () => {
    const overlapping: Schedule = {
      ...PLAN,
      shifts: [
        { name: "day", begins: "06:00", ends: "15:00" },
        { name: "late", begins: "14:00", ends: "23:00" },
      ],
    };
    expect(shiftAt("2026-11-25T14:30:00+01:00", overlapping).name).toBe("late");
  });

  test("is told from the beginnings alone: each lasts until the next", () => {
    const short: Schedule = { ...PLAN, shifts: undefined, shiftBegins: ["22:00", "06:00", "14:00"] };
    expect(shiftAt("2026-11-25T15:00:00+01:00", short)).toMatchObject({
      name: "14:00",
      began: "2026-11-25T14:00:00+01:00",
      ends: "2026-11-25T22:00:00+01:00",
    });
    expect(shiftAt("2026-11-25T03:00:00+01:00", short).ends).toBe("2026-11-25T06:00:00+01:00");
  });

  const anyMoment = fc
    .integer({ min: Date.parse("2026-01-01T00:00:00Z"), max: Date.parse("2028-12-31T00:00:00Z") })
    .map((ms) => new Date(Math.floor(ms / 1000) * 1000).toISOString());

  test("holds every moment, whatever the clock does; the shift before ends where it begins", () => {
    fc.assert(
      fc.property(anyMoment, (at) => {
        const shift = shiftAt(at, PLAN);
        expect(inShift(at, shift)).toBe(true);
        expect(Date.parse(shiftBefore(shift, PLAN).ends)).toBe(Date.parse(shift.began));
        expect(productionDay(shift.began, PLAN)).toEqual({ ok: true, value: shift.day });
      }),
      { numRuns: 60 },
    );
  });
});
