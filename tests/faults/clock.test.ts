import { describe, expect, test } from "vitest";
import { shiftAt } from "../../src/shift/schedule.ts";
import { verifyLog } from "../../src/store/verify.ts";
import { must, opened } from "../store/opened.ts";
import { station, testEntry } from "../store/records.ts";
import { temporaryFolder } from "../store/temporaryFolder.ts";

const shifts = { timeZone: "Europe/Berlin", dayBegins: "06:00", shiftBegins: ["06:00", "14:00", "22:00"] };

/** Tests recorded at these times, one after another: number, production day, and when the shift of each began. */
async function recordedAt(times: readonly string[]) {
  const folder = await temporaryFolder();
  const store = await opened(folder, { create: { ...station, ...shifts } });
  const filed: [number, string, string][] = [];
  for (const [i, at] of times.entries()) {
    const entry = must(await store.record(testEntry(`T-${i}`, at)));
    filed.push([entry.number, entry.day, shiftAt(at, shifts).began]);
  }
  await store.close();
  const again = await opened(folder);
  const rows = [...(await again.recentRows(99))].sort((a, b) => a.number - b.number);
  expect(rows.map(({ number, testId }) => [number, testId])).toEqual(times.map((_, i) => [i + 1, `T-${i}`]));
  expect(await verifyLog(folder)).toMatchObject({ ok: true, entries: times.length });
  return filed;
}

describe("a night shift over a change of the clock", () => {
  test("in autumn, when an hour comes twice, is one shift of one production day, in the order of the work", async () => {
    const night = "2026-10-24T22:00:00+02:00";
    expect(
      await recordedAt([
        "2026-10-24T23:50:00+02:00",
        "2026-10-25T02:30:00+02:00",
        "2026-10-25T02:10:00+01:00", // later, though the clock shows less
        "2026-10-25T05:59:59+01:00",
        "2026-10-25T06:00:00+01:00",
      ]),
    ).toEqual([
      [1, "2026-10-24", night],
      [2, "2026-10-24", night],
      [3, "2026-10-24", night],
      [4, "2026-10-24", night],
      [5, "2026-10-25", "2026-10-25T06:00:00+01:00"],
    ]);
  });

  test("in spring, when an hour is left out, likewise", async () => {
    const night = "2027-03-27T22:00:00+01:00";
    expect(
      await recordedAt([
        "2027-03-28T01:59:59+01:00",
        "2027-03-28T03:00:00+02:00",
        "2027-03-28T05:59:59+02:00",
        "2027-03-28T06:00:00+02:00",
      ]),
    ).toEqual([
      [1, "2027-03-27", night],
      [2, "2027-03-27", night],
      [3, "2027-03-27", night],
      [4, "2027-03-28", "2027-03-28T06:00:00+02:00"],
    ]);
  });
});

describe("a clock that is set", () => {
  test("back a day: each test is filed under the day that the clock showed, the numbers go on", async () =>
    expect(
      (await recordedAt(["2026-11-24T23:00:00+01:00", "2026-11-23T23:05:00+01:00", "2026-11-24T23:10:00+01:00"])).map(
        ([number, day]) => [number, day],
      ),
    ).toEqual([
      [1, "2026-11-24"],
      [2, "2026-11-23"],
      [3, "2026-11-24"],
    ]));

  test("forward a year and back: nothing is lost, and the numbers go on", async () =>
    expect(
      (await recordedAt(["2026-11-24T10:00:00+01:00", "2027-11-24T10:05:00+01:00", "2026-11-24T10:10:00+01:00"])).map(
        ([number, day]) => [number, day],
      ),
    ).toEqual([
      [1, "2026-11-24"],
      [2, "2027-11-24"],
      [3, "2026-11-24"],
    ]));
});
