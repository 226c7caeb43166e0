import { readFile, rm, stat, utimes, writeFile } from "node:fs/promises";
import { describe, expect, test } from "vitest";
import type { IndexMonth } from "../../src/record/indexRow.ts";
import { dayPath, indexPath } from "../../src/store/layout.ts";
import type { Store } from "../../src/store/store.ts";
import { must, mustNot, opened } from "./opened.ts";
import { draft, indexRowOf, note, testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const idsOf = async (store: Store, month: string) => (await store.indexRows(month)).map(({ testId }) => testId);
const onDisk = async (folder: string, month: string): Promise<IndexMonth> =>
  JSON.parse(await readFile(indexPath(folder, month), "utf8"));

/** Three days in two months, closed. */
async function twoMonths(): Promise<string> {
  const folder = await temporaryFolder();
  const store = await opened(folder);
  must(await store.record(testEntry("T-1", "2026-10-30T10:00:00+01:00")));
  must(await store.record(testEntry("T-2", "2026-11-23T10:00:00+01:00")));
  must(await store.record(testEntry("T-3", "2026-11-24T10:00:00+01:00")));
  must(await store.record(note("no row", "2026-11-24T11:00:00+01:00")));
  await store.close();
  return folder;
}

describe("the index of a month", () => {
  test("has a row for each test, oldest first, and counts the entries of each day", async () => {
    const folder = await twoMonths();
    const november = await onDisk(folder, "2026-11");
    expect(november.rows.map(({ testId }) => testId)).toEqual(["T-2", "T-3"]);
    expect(november.days).toMatchObject({ "2026-11-23": { entries: 1 }, "2026-11-24": { entries: 2 } });
  });

  test("shows a test at once, before any restart", async () => {
    const store = await opened(await temporaryFolder());
    for (const id of ["T-1", "T-2", "T-3"]) {
      must(await store.record(testEntry(id)));
      expect((await idsOf(store, "2026-11")).at(-1)).toBe(id);
    }
  });

  test("months come newest first, a new one at once", async () => {
    const store = await opened(await twoMonths());
    expect(store.indexMonths()).toEqual(["2026-11", "2026-10"]);
    must(await store.record(note("x", "2027-01-01T10:00:00+01:00")));
    expect(store.indexMonths()).toEqual(["2027-01", "2026-11", "2026-10"]);
  });

  test("a month without a log has no rows", async () => {
    const store = await opened(await twoMonths());
    expect(await store.indexRows("2020-01")).toEqual([]);
  });

  test("recent rows come newest first, whole months, as many as asked for if there are", async () => {
    const store = await opened(await twoMonths());
    const ids = async (n: number) => (await store.recentRows(n)).map(({ testId }) => testId);
    expect(await ids(0)).toEqual([]);
    expect(await ids(1)).toEqual(["T-3", "T-2"]);
    expect(await ids(3)).toEqual(["T-3", "T-2", "T-1"]);
    expect(await ids(99)).toEqual(["T-3", "T-2", "T-1"]);
  });

  test("is drawn again when it is missing", async () => {
    const folder = await twoMonths();
    await rm(indexPath(folder, "2026-10"));
    const store = await opened(folder);
    expect(await idsOf(store, "2026-10")).toEqual(["T-1"]);
    await store.close();
    expect((await onDisk(folder, "2026-10")).rows).toHaveLength(1);
    expect(store.problems).toEqual([]);
  });

  test("follows a day that it lacks", async () => {
    const folder = await twoMonths();
    const november = await onDisk(folder, "2026-11");
    const { "2026-11-23": _, ...days } = november.days;
    const rows = november.rows.filter(({ day }) => day !== "2026-11-23");
    await writeFile(indexPath(folder, "2026-11"), JSON.stringify({ ...november, days, rows }));
    expect(await idsOf(await opened(folder), "2026-11")).toEqual(["T-2", "T-3"]);
  });

  test("follows the newest day by its seal, even if the times of the files lie", async () => {
    const folder = await twoMonths();
    const november = await onDisk(folder, "2026-11");
    const days = { ...november.days, "2026-11-24": { entries: 1, lastSeal: "a".repeat(64) } };
    await writeFile(indexPath(folder, "2026-11"), JSON.stringify({ ...november, days, rows: [] }));
    const future = new Date(Date.now() + 86_400_000);
    await utimes(indexPath(folder, "2026-11"), future, future);
    expect(await idsOf(await opened(folder), "2026-11")).toContain("T-3");
  });

  test("follows a day that was written after it", async () => {
    const folder = await twoMonths();
    const october = await onDisk(folder, "2026-10");
    const days = { "2026-10-30": { entries: 0, lastSeal: "0".repeat(64) } };
    await writeFile(indexPath(folder, "2026-10"), JSON.stringify({ ...october, days, rows: [] }));
    const later = new Date((await stat(indexPath(folder, "2026-10"))).mtimeMs + 5000);
    await utimes(dayPath(folder, "2026-10-30"), later, later);
    expect(await idsOf(await opened(folder), "2026-10")).toEqual(["T-1"]);
  });

  test("loses the rows of a day that the log has lost", async () => {
    const folder = await twoMonths();
    await rm(dayPath(folder, "2026-11-23"));
    expect(await idsOf(await opened(folder), "2026-11")).toEqual(["T-3"]);
  });

  test("is not written when nothing has changed", async () => {
    const folder = await twoMonths();
    const before = (await stat(indexPath(folder, "2026-11"))).mtimeMs;
    const store = await opened(folder);
    await idsOf(store, "2026-11");
    await store.close();
    expect((await stat(indexPath(folder, "2026-11"))).mtimeMs).toBe(before);
  });

  test("drawing everything again gives the same files, and counts", async () => {
    const folder = await twoMonths();
    const before = [await readFile(indexPath(folder, "2026-10")), await readFile(indexPath(folder, "2026-11"))];
    await rm(indexPath(folder, "2026-10"));
    await writeFile(indexPath(folder, "2026-11"), "garbage");
    const store = await opened(folder);
    expect(must(await store.reindex())).toEqual({ months: 2, entries: 4 });
    expect([await readFile(indexPath(folder, "2026-10")), await readFile(indexPath(folder, "2026-11"))]).toEqual(
      before,
    );
  });

  test("a row that can't be drawn does not hold up the record, and is told", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder, {
      indexRowOf: (entry) => {
        if (entry.test.testId === "T-1") throw new TypeError("a fault of the program");
        return { ...indexRowOf(entry), lossPct: entry.test.testId === "T-2" ? Number.NaN : 0 };
      },
    });
    for (const id of ["T-1", "T-2", "T-3"]) must(await store.record(testEntry(id)));
    expect(await idsOf(store, "2026-11")).toEqual(["T-3"]);
    expect(store.problems).toEqual([
      "entry 1 is in the log but can't be listed: TypeError: a fault of the program. It is tried again at the next opening",
      expect.stringMatching(/^entry 2 is in the log but can't be listed: damaged at lossPct/),
    ]);
  });
});

describe("a reader beside the writer", () => {
  test("sees what was recorded since it opened, and writes no index", async () => {
    const folder = await twoMonths();
    const writer = await opened(folder);
    const reader = await opened(folder);
    await rm(indexPath(folder, "2026-10"));
    expect(await idsOf(reader, "2026-10")).toEqual(["T-1"]);
    await expect(stat(indexPath(folder, "2026-10"))).rejects.toMatchObject({ code: "ENOENT" });
    must(await writer.record(testEntry("T-4", "2026-11-24T12:00:00+01:00")));
    expect(await idsOf(reader, "2026-11")).toEqual(["T-2", "T-3", "T-4"]);
    expect(await reader.entriesOfDay("2026-11-24")).toHaveLength(3);
  });
});

describe("entries of a day", () => {
  test("are found by day and number, and a test by its row", async () => {
    const store = await opened(await twoMonths());
    expect(must(await store.entry("2026-11-24", 4))).toMatchObject({ kind: "note", text: "no row" });
    const [row] = await store.recentRows(1);
    expect(must(await store.testEntry(row!)).test.testId).toBe("T-3");
  });

  test("that are not there are refused in words", async () => {
    const store = await opened(await twoMonths());
    expect(mustNot(await store.entry("2026-11-24", 99))).toBe("the log holds no entry 99 of 2026-11-24");
    expect(mustNot(await store.testEntry({ day: "2026-11-24", number: 4 }))).toBe("entry 4 of 2026-11-24 is no test");
  });

  test.each(["2026-11-31", "../../drafts/T-1", "", "2026-11-24/../2026-11-23"])(
    "%j is no day and has none",
    async (day) => {
      const store = await opened(await twoMonths());
      must(await store.saveDraft(draft("T-1x")));
      expect(await store.entriesOfDay(day)).toEqual([]);
    },
  );
});
