import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { LogEntry } from "../../src/record/logEntry.ts";
import { type HandoverSources, handoverOf } from "../../src/shift/handover.ts";

/** The night of the autumn clock change: nine hours long. */
const NIGHT = {
  name: "night",
  began: "2026-10-24T22:00:00+02:00",
  ends: "2026-10-25T06:00:00+01:00",
  day: "2026-10-24",
};

const sealed = (number: number, at: string) => ({
  number,
  at,
  day: "2026-10-24",
  station: "TH-DRY1",
  by: "KO",
  previous: "0".repeat(64),
});
const note = (number: number, at: string): LogEntry => ({
  kind: "note",
  ...sealed(number, at),
  text: `note ${number}`,
});
const hold = (number: number, at: string, lot = "A"): LogEntry => ({
  kind: "hold opened",
  ...sealed(number, at),
  product: "TH-0510",
  lot,
  line: "Dryer 1",
  of: null,
  owner: "quality",
  reason: "fail: d50 800 is above 790",
});
const closed = (number: number, at: string, of: number): LogEntry => ({
  kind: "hold closed",
  ...sealed(number, at),
  hold: { day: "2026-10-24", number: of },
  product: "TH-0510",
  lot: "A",
  disposition: "rework",
  reason: "screened again",
});

const sources = (change: Partial<HandoverSources>): HandoverSources => ({
  shift: NIGHT,
  entries: [],
  holds: [],
  rows: [],
  drafts: [],
  late: [],
  head: null,
  ...change,
});

describe("the handover of a shift", () => {
  test("takes what lies in the shift as instants, both hours from 2 to 3, in the order of the log", () => {
    const entries = [
      note(1, "2026-10-24T21:59:59+02:00"),
      note(2, "2026-10-24T22:00:00+02:00"),
      note(3, "2026-10-25T02:30:00+02:00"),
      note(4, "2026-10-25T02:15:00+01:00"),
      note(5, "2026-10-25T05:59:59+01:00"),
      note(6, "2026-10-25T06:00:00+01:00"),
    ];
    expect(handoverOf(sources({ entries })).notes.map(({ number }) => number)).toEqual([2, 3, 4, 5]);
  });

  test("names holds that are open whenever they were opened, and those that the shift closed", () => {
    const before = "2026-10-01T08:00:00+02:00";
    const during = "2026-10-25T01:00:00+02:00";
    const entries = [closed(9, during, 3), hold(10, during, "C")];
    const holds = [hold(3, before, "A"), hold(4, before, "B"), ...entries];
    const { open, closed: shut } = handoverOf(sources({ entries, holds }));
    expect(open.map(({ number }) => number)).toEqual([4, 10]);
    expect(shut.map(({ number }) => number)).toEqual([9]);
  });

  test("leaves out tests of other shifts and keeps void ones", () => {
    const row = (number: number, at: string, voided = false) =>
      ({ number, at, amended: { corrections: 0, voided, waived: false } }) as never;
    const rows = [row(7, "2026-10-25T03:00:00+01:00", true), row(5, "2026-10-24T23:00:00+02:00"), row(2, NIGHT.ends)];
    expect(handoverOf(sources({ rows })).tests.map(({ number }) => number)).toEqual([5, 7]);
  });

  test("puts each kind of entry in one place and loses none that it tells of", () => {
    const at = "2026-10-25T03:00:00+01:00";
    const kinds = fc.constantFrom(note, hold, (n: number, when: string) => closed(n, when, 1));
    fc.assert(
      fc.property(fc.array(kinds, { maxLength: 12 }), (makers) => {
        const entries = makers.map((make, i) => make(i + 1, at));
        const { notes, closed: shut } = handoverOf(sources({ entries }));
        const opened = entries.filter(({ kind }) => kind === "hold opened").length;
        expect(notes.length + shut.length + opened).toBe(entries.length);
      }),
    );
  });
});
