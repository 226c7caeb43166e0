import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { moment as momentField } from "../../src/record/fields.ts";
import { knownZone } from "../../src/record/knownZone.ts";
import { inZone, momentsIn } from "../../src/record/moment.ts";

const berlin = momentsIn("Europe/Berlin");
const at = (text: string) => Date.parse(text);

describe("a moment of the station's clock", () => {
  test("is local time to the second with its offset", () => {
    expect(berlin(at("2026-11-24T02:12:05Z"))).toBe("2026-11-24T03:12:05+01:00");
    expect(berlin(at("2026-07-01T02:12:05.999Z"))).toBe("2026-07-01T04:12:05+02:00");
  });

  test("begins summer time by leaving an hour out", () => {
    expect(berlin(at("2026-03-29T00:59:59Z"))).toBe("2026-03-29T01:59:59+01:00");
    expect(berlin(at("2026-03-29T01:00:00Z"))).toBe("2026-03-29T03:00:00+02:00");
  });

  test("ends summer time by an hour that comes twice, told apart by its offset", () => {
    expect(berlin(at("2026-10-25T00:30:00Z"))).toBe("2026-10-25T02:30:00+02:00");
    expect(berlin(at("2026-10-25T01:30:00Z"))).toBe("2026-10-25T02:30:00+01:00");
    expect(berlin(at("2026-10-25T02:00:00Z"))).toBe("2026-10-25T03:00:00+01:00");
  });

  test.each([
    ["America/St_Johns", "2026-07-01T12:00:00Z", "2026-07-01T09:30:00-02:30"],
    ["Asia/Kathmandu", "2026-07-01T12:00:00Z", "2026-07-01T17:45:00+05:45"],
    ["Australia/Lord_Howe", "2026-04-04T15:00:00Z", "2026-04-05T01:30:00+10:30"],
    ["Pacific/Kiritimati", "2026-12-31T12:00:00Z", "2027-01-01T02:00:00+14:00"],
    ["UTC", "2026-07-01T12:00:00Z", "2026-07-01T12:00:00+00:00"],
  ])("in %s keeps halves and quarters of an hour of its offset", (zone, instant, text) => {
    expect(momentsIn(zone)(at(instant))).toBe(text);
  });

  test("of a zone that nobody knows is that of the other one, not a crash", () => {
    expect(momentsIn("Europe/Berlinn", "Europe/Berlin")(at("2026-11-24T02:12:05Z"))).toBe("2026-11-24T03:12:05+01:00");
    expect(momentsIn("")(at("2026-11-24T02:12:05Z"))).toBe("2026-11-24T02:12:05+00:00");
  });
});

test("a zone is known by its name or as an offset", () => {
  expect(knownZone("Europe/Berlin", "UTC")).toBe("Europe/Berlin");
  expect(knownZone("+05:30", "UTC")).toBe("+05:30");
  for (const wrong of ["", "Berlin", "Europe/Berlinn", "06:00"]) expect(knownZone(wrong, "UTC")).toBe("UTC");
});

const anyInstant = fc.integer({ min: at("2000-01-01T00:00:00Z"), max: at("2050-01-01T00:00:00Z") });
const anyZone = fc.constantFrom("Europe/Berlin", "America/St_Johns", "Australia/Lord_Howe", "Asia/Kathmandu", "UTC");

test("whenever and wherever: the same instant to the second, fit for the record, in whatever order it is asked", () => {
  fc.assert(
    fc.property(anyZone, fc.array(anyInstant, { minLength: 1, maxLength: 8 }), (zone, instants) => {
      const moment = momentsIn(zone);
      for (const epochMs of instants) {
        const text = moment(epochMs);
        expect(at(text)).toBe(Math.floor(epochMs / 1000) * 1000);
        expect(momentField.safeParse(text).success).toBe(true);
        expect(momentsIn(zone)(epochMs)).toBe(text);
      }
    }),
  );
});

describe("a moment of another zone", () => {
  test("is rewritten as the station's clock shows it, the instant unchanged", () => {
    expect(inZone("Europe/Berlin")("2026-11-24T04:14:05+00:00")).toBe("2026-11-24T05:14:05+01:00");
    expect(inZone("Europe/Berlin")("2026-07-01T23:14:05Z")).toBe("2026-07-02T01:14:05+02:00");
  });

  test("stays to the letter when its offset is that of the station", () =>
    expect(inZone("Europe/Berlin")("2026-11-24T05:14:05.250+01:00")).toBe("2026-11-24T05:14:05.250+01:00"));

  test("stays as it is when there is no such zone, or it is no moment", () => {
    expect(inZone("Tessel/Hollow")("2026-11-24T04:14:05+00:00")).toBe("2026-11-24T04:14:05+00:00");
    expect(inZone("Europe/Berlin")("yesterday")).toBe("yesterday");
  });
});
