import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { countsSince } from "../../../src/care/use/counts.ts";
import { dueOf } from "../../../src/care/use/due.ts";
import { begunAnew, type CareNote, lastInspection, notesOf, standingOf } from "../../../src/care/use/life.ts";
import { comparableTares } from "../../../src/care/use/tares.ts";
import { useOf } from "../../../src/care/use/useOf.ts";
import type { Sieve } from "../../../src/record/sieve.ts";

const timed = (startedAt: string | null, endedAt: string | null) => ({
  plannedS: 600,
  startedAt,
  endedAt,
  skipped: null,
});
const tested = {
  finishedAt: "2026-11-24T08:40:00+01:00",
  weighings: [
    { apertureUm: 1000, serial: "A", emptyG: 400, fullG: 420 },
    { apertureUm: 500, serial: "B", emptyG: 390, fullG: 490 },
    { apertureUm: 0, emptyG: 300, fullG: 480 },
  ],
  shaking: timed("2026-11-24T08:20:00+01:00", "2026-11-24T08:30:00+01:00"),
};

describe("what a test did to a sieve", () => {
  test("is its minutes on the shaker and all that lies below it", () => {
    expect(useOf(tested, "A")).toEqual({ at: tested.finishedAt, sievedMin: 10, passedKg: 0.28 });
    expect(useOf(tested, "B")).toMatchObject({ passedKg: 0.18 });
  });

  test("is nothing to a sieve that was not in the stack", () => expect(useOf(tested, "C")).toBeNull());

  test("counts every portion and the check minute", () => {
    const earlierShaking = [timed("2026-11-24T08:00:00+01:00", "2026-11-24T08:05:00+01:00")];
    const checkMinute = { at: "2026-11-24T08:32:00+01:00", before: [] };
    expect(useOf({ ...tested, earlierShaking, checkMinute }, "A")?.sievedMin).toBe(16);
    const weighings = tested.weighings.map((w) => (w.apertureUm === 0 ? { ...w, earlierFullG: [320] } : w));
    expect(useOf({ ...tested, weighings }, "B")?.passedKg).toBeCloseTo(0.2, 12);
  });

  test("has no time where the shaker was not timed, rather than one made up", () => {
    expect(useOf({ ...tested, shaking: timed(null, null) }, "A")?.sievedMin).toBeNull();
    expect(useOf({ ...tested, earlierShaking: [timed(null, null)] }, "A")?.sievedMin).toBeNull();
  });

  test("passes over what was not weighed, and nothing negative", () => {
    const weighings = [
      { apertureUm: 1000, serial: "A", emptyG: 400, fullG: 420 },
      { apertureUm: 500, emptyG: 390, fullG: null },
      { apertureUm: 250, emptyG: 390.01, fullG: 390 },
    ];
    expect(useOf({ ...tested, weighings }, "A")?.passedKg).toBe(0);
  });
});

describe("counts since a moment", () => {
  const use = (day: number, sievedMin: number | null = 10) => ({
    at: `2026-11-${String(day).padStart(2, "0")}T08:00:00+01:00`,
    sievedMin,
    passedKg: 0.2,
  });

  test("leave out what was before, and that moment itself", () => {
    const counts = countsSince([use(1), use(2), use(3, null), use(4)], "2026-11-02T08:00:00+01:00");
    expect(counts).toEqual({ tests: 2, sievedMin: 10, passedKg: 0.4, untimed: 1, since: "2026-11-02" });
  });

  test("before and after a moment add up to all", () =>
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 28 })), fc.integer({ min: 1, max: 28 }), (days, cut) => {
        const uses = days.map((day) => use(day));
        const since = `2026-11-${String(cut).padStart(2, "0")}T08:00:00+01:00`;
        const [all, late] = [countsSince(uses, null), countsSince(uses, since)];
        expect(late.tests).toBe(days.filter((day) => day > cut).length);
        expect(all.tests).toBe(days.length);
        expect(all.sievedMin - late.sievedMin).toBe(10 * (all.tests - late.tests));
      }),
    ));
});

describe("an inspection", () => {
  const counts = { tests: 50, sievedMin: 500, passedKg: 12, untimed: 0, since: "2026-06-01" };

  test.each([
    [{ tests: 100 }, "not due"],
    [{ tests: 56 }, "not due"],
    [{ tests: 55 }, "due"],
    [{ tests: 50 }, "due"],
    [{ tests: 49 }, "overdue"],
    [{ sievedMin: 499 }, "overdue"],
    [{ passedKg: 13 }, "due"],
    [{ days: 183 }, "due"],
    [{ days: 170 }, "overdue"],
    [{ days: 300, tests: 49 }, "overdue"],
    [{}, "not due"],
  ] as const)("by %j is %s after 50 tests and 176 days", (schedule, state) =>
    expect(dueOf(counts, schedule, "2026-11-24").state).toBe(state),
  );

  test("says by what, and on which day by date", () => {
    expect(dueOf(counts, { days: 183, tests: 1000 }, "2026-11-24")).toMatchObject({
      first: { by: "days", used: 176, limit: 183 },
      onDay: "2026-12-01",
      text: "176 of 183 days since 2026-06-01",
    });
    expect(dueOf(counts, { passedKg: 13 }, "2026-11-24").text).toBe("12 of 13 kg passed since 2026-06-01");
  });

  test("is overdue where no day is known to count from, and not due where no interval is set", () => {
    expect(dueOf({ ...counts, since: null }, { days: 183 }, "2026-11-24")).toMatchObject({
      state: "overdue",
      onDay: null,
    });
    expect(dueOf({ ...counts, since: null }, {}, "2026-11-24").text).toBe("no interval is set");
  });

  test("never becomes less due with more tests", () =>
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 200 }), fc.integer({ min: 1, max: 100 }), (tests, more) => {
        const rank = { "not due": 0, due: 1, overdue: 2 };
        const state = (n: number) => rank[dueOf({ ...counts, tests: n }, { tests: 100 }, "2026-11-24").state];
        expect(state(tests + more)).toBeGreaterThanOrEqual(state(tests));
      }),
    ));
});

const sieve: Sieve = { schema: "sievewright.sieve/1", serial: "A", apertureUm: 1000 };
const note = (day: number, care: CareNote["care"]): CareNote => ({
  at: `2026-11-${String(day).padStart(2, "0")}T08:00:00+01:00`,
  care,
});
const A = ["A"];

describe("the life of a sieve", () => {
  const log = [
    note(9, { did: "quarantine", serials: ["A", "B"], reason: "dent" }),
    note(3, { did: "cleaning", serials: A, how: "brush" }),
    note(12, { did: "return to service", serials: A, reason: "straightened" }),
    note(5, { did: "inspection", serial: "A", looks: {} }),
    note(7, { did: "inspection", serial: "B", looks: {} }),
    note(6, { did: "repair", serials: A, what: "solder" }),
  ];

  test("is its own entries alone, oldest first", () =>
    expect(notesOf("A", log).map(({ care }) => care.did)).toEqual([
      "cleaning",
      "inspection",
      "repair",
      "quarantine",
      "return to service",
    ]));

  test("ends in the state of the latest entry that changes it, with reason and day", () => {
    expect(standingOf(sieve, log)).toEqual({ state: "in service", reason: "straightened", since: "2026-11-12" });
    expect(standingOf({ ...sieve, serial: "B" }, log)).toEqual({
      state: "quarantine",
      reason: "dent",
      since: "2026-11-09",
    });
    expect(standingOf({ ...sieve, serial: "C" }, log).state).toBe("in service");
  });

  test("goes on from the register: entries before it was written change nothing", () => {
    const written = { ...sieve, serial: "B", state: "retired", stateReason: "worn", stateSince: "2026-11-20" } as const;
    expect(standingOf(written, log)).toEqual({ state: "retired", reason: "worn", since: "2026-11-20" });
    expect(standingOf({ ...written, stateSince: "2026-11-01" }, log).state).toBe("quarantine");
  });

  test("knows its last inspection, and since when its empty masses compare", () => {
    expect(lastInspection("A", log)?.at).toBe("2026-11-05T08:00:00+01:00");
    expect(lastInspection("C", log)).toBeNull();
    expect(begunAnew("A", log)).toBe("2026-11-12T08:00:00+01:00");
    expect(begunAnew("B", log)).toBeNull();
  });
});

describe("empty weighings that compare", () => {
  const weighed = (day: number, emptyG: number) => ({
    at: `2026-11-${String(day).padStart(2, "0")}T09:00:00+01:00`,
    emptyG,
    round: `t${day}`,
  });
  const history = { serial: "A", apertureUm: 1000, weighings: [weighed(2, 400.4), weighed(8, 400.1)] };

  test("join those after a cleaning, marked as such", () => {
    const cleaning = note(4, {
      did: "cleaning",
      serials: ["A", "B"],
      how: "brush",
      after: [{ serial: "A", emptyG: 400 }],
    });
    const { weighings } = comparableTares(history, [cleaning]);
    expect(weighings.map((w) => [w.emptyG, w.cleaned ?? false])).toEqual([
      [400.4, false],
      [400, true],
      [400.1, false],
    ]);
  });

  test("begin anew after a repair, not after a cleaning of another sieve", () => {
    const repair = note(5, { did: "repair", serials: A, what: "solder" });
    const other = note(6, { did: "cleaning", serials: ["B"], how: "brush", after: [{ serial: "B", emptyG: 1 }] });
    expect(comparableTares(history, [repair, other]).weighings.map((w) => w.emptyG)).toEqual([400.1]);
  });
});
