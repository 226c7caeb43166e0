import { describe, expect, test } from "vitest";
import type { LogEntry } from "../../src/record/logEntry.ts";
import { momentsIn } from "../../src/record/moment.ts";
import { noteClock, stepInWords } from "../../src/store/clockNote.ts";
import { clockWatch, stepAtOpening } from "../../src/store/clockStep.ts";
import { verifyLog } from "../../src/store/verify.ts";
import { deadProcess } from "../faults/deadProcess.ts";
import { must, opened } from "./opened.ts";
import { draft, note, station, testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const LAST = "2026-11-24T12:00:00+01:00";
const noteAt = (at: string, number = 1): LogEntry => ({
  kind: "note",
  number,
  at,
  day: at.slice(0, 10),
  station: "TH-DRY1",
  by: "KO",
  previous: "0".repeat(64),
  text: "x",
});
const clockSetFrom = (from: string, at: string): LogEntry => {
  const { text: _text, ...sealed } = { ...noteAt(at), text: "" };
  return { ...sealed, kind: "clock set", from, byS: 0 } as LogEntry;
};

describe("a clock at opening", () => {
  test.each([
    ["a second later", "2026-11-24T12:00:01+01:00", null],
    ["written with another offset", "2026-11-24T11:00:01+00:00", null],
    ["two minutes earlier, within what entries may be off", "2026-11-24T11:58:00+01:00", null],
    ["a little earlier than that", "2026-11-24T11:57:59+01:00", -121],
    ["a day earlier", "2026-11-23T12:00:00+01:00", -86_400],
    ["400 days later, as after a long rest", "2027-12-29T12:00:00+01:00", null],
    ["a little later than that", "2027-12-29T12:00:01+01:00", 34_560_001],
    ["in the hour that the autumn repeats", "2026-11-24T12:30:00+02:00", -1800],
  ])("%s", (_, now, byS) =>
    expect(stepAtOpening([noteAt(LAST)], [], now)).toEqual(byS === null ? null : { from: LAST, byS }),
  );

  test("is compared with the last entry by number, not with the latest time", () => {
    const entries = [noteAt("2027-11-24T12:00:00+01:00", 1), noteAt(LAST, 2)];
    expect(stepAtOpening(entries, [], "2026-11-24T12:01:00+01:00")).toBe(null);
  });

  test("is compared with a draft that is younger than the log, until the log tells of it", () => {
    const touched = { ...draft("T-1"), trail: [], startedAt: "2026-11-24T13:00:00+01:00" };
    const now = "2026-11-24T12:30:00+01:00";
    expect(stepAtOpening([noteAt(LAST)], [touched], now)).toEqual({ from: touched.startedAt, byS: -1800 });
    const told = [noteAt(LAST), clockSetFrom(touched.startedAt, now)];
    expect(stepAtOpening(told, [touched], "2026-11-24T12:31:00+01:00")).toBe(null);
  });

  test("of a station that has nothing yet is not judged", () => expect(stepAtOpening([], [], LAST)).toBe(null));
});

describe("a clock while the program runs", () => {
  /** A wall clock and a counter beside it, both in ms. */
  function clocks() {
    const at = { wallMs: Date.parse(LAST), counterMs: 5_000_000 };
    const watch = clockWatch(
      () => at.wallMs,
      () => at.counterMs,
      momentsIn("Europe/Berlin"),
    );
    return {
      /** So much time passes; the wall clock is set by so much besides. */
      after: (passedS: number, setS = 0) => {
        at.counterMs += passedS * 1000;
        at.wallMs += (passedS + setS) * 1000;
        return watch();
      },
    };
  }

  test("that runs as the counter does is never told, whether it ticks or sleeps", () => {
    const clock = clocks();
    for (const passedS of [1, 1, 1, 8 * 3600, 1]) expect(clock.after(passedS)).toBe(null);
  });

  test.each([
    [-86_400, "2026-11-24T12:00:10+01:00"],
    [86_400 * 365, "2026-11-24T12:00:10+01:00"],
    [31, "2026-11-24T12:00:10+01:00"],
    [-31, "2026-11-24T12:00:10+01:00"],
  ])("that is set by %i s is told once, with where it stood", (byS, from) => {
    const clock = clocks();
    expect(clock.after(10, byS)).toEqual({ from, byS });
    expect(clock.after(1)).toBe(null);
  });

  test("that is drawn to the right time by a few seconds is not told", () => {
    const clock = clocks();
    for (let i = 0; i < 20; i += 1) expect(clock.after(60, 20)).toBe(null);
  });
});

test.each([
  [-86_400, "back by 24 h"],
  [-3 * 86_400, "back by 3 days"],
  [45, "forward by 45 s"],
  [3000, "forward by 50 min"],
])("a step of %i s in words", (byS, words) =>
  expect(stepInWords({ from: LAST, byS })).toContain(`was set ${words}: check`),
);

describe("the log tells of a step that is found at opening", () => {
  const plant = { ...station, demo: false };
  const noted = async (folder: string, now: string) => {
    const store = await opened(folder, { now: () => now });
    const step = must(await noteClock(store, now));
    const kinds = (await store.entriesOfDay(now.slice(0, 10))).map(({ kind }) => kind);
    await store.close();
    return { step, kinds };
  };

  test("once, with where it stood; the order stays that of the numbers and the chain holds", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder, { create: plant });
    must(await store.record(note("x", LAST)));
    await store.close();
    expect(await noted(folder, "2026-11-23T12:00:00+01:00")).toEqual({
      step: { from: LAST, byS: -86_400 },
      kinds: ["clock set"],
    });
    expect((await noted(folder, "2026-11-23T12:05:00+01:00")).step).toBe(null);
    expect(await verifyLog(folder)).toMatchObject({ ok: true, entries: 2 });
  });

  test("though something else was found at the same opening, and told first", async () => {
    const folder = await temporaryFolder();
    const killed = await opened(folder, { create: plant, pid: deadProcess() });
    must(await killed.record(testEntry("T-1", LAST)));
    expect(await noted(folder, "2026-11-23T12:00:00+01:00")).toEqual({
      step: { from: LAST, byS: -86_400 },
      kinds: ["finding", "clock set"],
    });
  });

  test("not by whoever may only read, and not in a demo, whose season has its own time", async () => {
    const folder = await temporaryFolder();
    const writer = await opened(folder, { create: plant });
    must(await writer.record(note("x", LAST)));
    expect((await noted(folder, "2026-11-23T12:00:00+01:00")).step).toBe(null);
    const demo = await temporaryFolder();
    must(await (await opened(demo)).record(note("x", LAST)));
    expect((await noted(demo, "2026-11-23T12:00:00+01:00")).step).toBe(null);
  });
});
