import { describe, expect, test } from "vitest";
import { type Circumstances, type Holder, holderInWords, isLeftOver, readHolder } from "../../src/store/lockHolder.ts";

const holder: Holder = {
  schema: "sievewright.lock/1",
  pid: 4711,
  host: "TH-DRY1",
  since: "2026-11-24T22:04:00+01:00",
  token: "6f1d3c0a-3b0a-4c53-9a53-0f9e43a4c0de",
  folder: "/plant/station",
};
const here: Circumstances = { host: "TH-DRY1", folder: "/plant/station", ageMs: 4000, alive: true };
const leftOver = (change: Partial<Circumstances>, who: Holder | null = holder) =>
  isLeftOver(who, { ...here, ...change });

describe("a lock is left over", () => {
  test("not while its process lives and renews it", () => expect(leftOver({})).toBe(false));
  test("when its process on this computer is gone", () => expect(leftOver({ alive: false })).toBe(true));
  test("when this computer's lock names another folder: it was copied along", () =>
    expect(leftOver({ folder: "/copy" })).toBe(true));
  test("not when another computer knows the folder by another name", () =>
    expect(leftOver({ folder: "/mnt/plant", host: "TH-MILL" })).toBe(false));
  test("not when another computer's process number lives or not here: it says nothing", () =>
    expect(leftOver({ alive: false, host: "TH-MILL" })).toBe(false));

  test.each([
    [30_000, false],
    [30_001, true],
    [-30_000, false],
    [-30_001, true],
  ])("renewed %i ms ago: %s, on whichever computer, readable or not", (ageMs, expected) => {
    expect(leftOver({ ageMs })).toBe(expected);
    expect(leftOver({ ageMs, host: "TH-MILL" })).toBe(expected);
    expect(leftOver({ ageMs }, null)).toBe(expected);
  });
});

describe("who has the station", () => {
  test("by process and time of day on the same computer and day", () =>
    expect(holderInWords(holder, "TH-DRY1", "2026-11-24T23:00:00+01:00")).toBe(
      "another Sievewright (process 4711, since 22:04) has this station open",
    ));
  test("with the date on another day, and with the computer if it is another", () =>
    expect(holderInWords(holder, "TH-MILL", "2026-11-25T03:00:00+01:00")).toBe(
      "another Sievewright (process 4711 on TH-DRY1, since 2026-11-24 22:04) has this station open",
    ));
  test("unknown while the lock is being written", () =>
    expect(holderInWords(null, "TH-DRY1", "2026-11-25T03:00:00+01:00")).toBe(
      "another Sievewright is just opening this station",
    ));
});

describe("the text of a lock", () => {
  test("tells its holder", () => expect(readHolder(`${JSON.stringify(holder)}\n`)).toEqual(holder));
  test.each(["", "{", "null", "[]", JSON.stringify({ ...holder, pid: 0 }), JSON.stringify({ ...holder, extra: 1 })])(
    "%j tells nobody",
    (text) => expect(readHolder(text)).toBe(null),
  );
  test("a host or time that would spoil the terminal tells nobody", () => {
    expect(readHolder(JSON.stringify({ ...holder, host: "\u001b[2J" }))).toBe(null);
    expect(readHolder(JSON.stringify({ ...holder, since: "22:04" }))).toBe(null);
  });
});
