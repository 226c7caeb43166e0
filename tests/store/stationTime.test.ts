import { describe, expect, test } from "vitest";
import { must, opened } from "./opened.ts";
import { note, station } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const OTHER_CLOCK = "2026-11-24T04:14:00+00:00";

describe("a station whose computer keeps the time of another zone", () => {
  test("writes every entry in the time of the station, also the first one that it writes of itself", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder, { create: station, now: () => OTHER_CLOCK, declares: true });
    must(await store.record(note("by the computer's clock", OTHER_CLOCK)));
    must(await store.recordAll([note("by that of the screens", "2026-11-24T05:15:00+01:00")]));
    const entries = await store.entriesOfDay("2026-11-23");
    expect(entries.map(({ kind, at }) => [kind, at])).toEqual([
      ["station declared", "2026-11-24T05:14:00+01:00"],
      ["note", "2026-11-24T05:14:00+01:00"],
      ["note", "2026-11-24T05:15:00+01:00"],
    ]);
  });

  test("says since when another window has it in the time of the station", async () => {
    const folder = await temporaryFolder();
    await opened(folder, { create: station, now: () => OTHER_CLOCK });
    const second = await opened(folder, { now: () => OTHER_CLOCK });
    expect(second.readOnly).toContain("05:14");
    expect(second.readOnly).not.toContain("04:14");
  });
});
