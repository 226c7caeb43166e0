import { readdir, readFile, rm, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { openStore } from "../../src/store/openStore.ts";
import { ModelDisk } from "../faults/modelDisk.ts";
import { must, mustNot, opened } from "./opened.ts";
import { draft, indexRowOf, note, now, station, testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const options = { now, indexRowOf };

describe("opening a folder", () => {
  test("that is not there makes the station, its folders and a head", async () => {
    const folder = join(await temporaryFolder(), "deep", "inside");
    const store = await opened(folder);
    expect(store.station).toEqual(station);
    expect(store.readOnly).toBe(null);
    expect(store.problems).toEqual([]);
    expect((await readdir(folder)).sort()).toEqual(["drafts", "index", "log", "station.json", "station.lock"]);
    expect(JSON.parse(await readFile(join(folder, "station.json"), "utf8"))).toEqual(station);
  });

  test("that is empty makes no station unless asked to", async () => {
    const folder = await temporaryFolder();
    expect(mustNot(await openStore(folder, options))).toBe(
      `there is no station in ${folder}: station.json is missing. Check the folder (--data)`,
    );
    expect(await readdir(folder)).toEqual([]);
  });

  test("that is not there is refused without making it", async () => {
    const folder = join(await temporaryFolder(), "moved");
    expect(mustNot(await openStore(folder, options))).toContain("there is no station");
    await expect(stat(folder)).rejects.toMatchObject({ code: "ENOENT" });
  });

  test("with a station in it keeps that station, whatever it is asked to make", async () => {
    const folder = await temporaryFolder();
    await (await opened(folder)).close();
    const store = await opened(folder, { create: { ...station, station: "TH-MILL" } });
    expect(store.station.station).toBe("TH-DRY1");
  });

  test("with records but no station is refused: a lost station.json must not start a new log", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    must(await store.record(note("x")));
    await store.close();
    await rm(join(folder, "station.json"));
    expect(mustNot(await openStore(folder, { ...options, create: station }))).toBe(
      `${folder} holds records but no station.json. Restore that file from a backup`,
    );
    expect(await readdir(folder)).not.toContain("station.lock");
  });

  test("that is a file is refused in words", async () => {
    const file = join(await temporaryFolder(), "file");
    await writeFile(file, "");
    expect(mustNot(await openStore(file, { ...options, create: station }))).toMatch(/\((EEXIST|ENOTDIR|ENOENT)\)$/);
  });

  test("refuses a station that its own reader would refuse later", async () => {
    const folder = await temporaryFolder();
    const wrong = { ...station, dayBegins: "6 o'clock" };
    expect(mustNot(await openStore(folder, { ...options, create: wrong }))).toContain("dayBegins");
    expect(await readdir(folder)).not.toContain("station.json");
  });
});

describe("a station's folder after closing and opening", () => {
  test("gives drafts, entries and rows as they were", async () => {
    const folder = await temporaryFolder();
    const before = await opened(folder);
    must(await before.saveDraft(draft("T-2", 3, "2026-11-24T09:00:00+01:00")));
    must(await before.saveDraft(draft("T-1", 1, "2026-11-24T08:00:00+01:00")));
    must(await before.record(testEntry("T-0")));
    must(await before.record(note("x")));
    const seen = {
      drafts: before.drafts(),
      entries: await before.entriesOfDay("2026-11-24"),
      rows: await before.indexRows("2026-11"),
      months: before.indexMonths(),
    };
    await before.close();
    const after = await opened(folder);
    expect(after.problems).toEqual([]);
    expect({
      drafts: after.drafts(),
      entries: await after.entriesOfDay("2026-11-24"),
      rows: await after.indexRows("2026-11"),
      months: after.indexMonths(),
    }).toEqual(seen);
    expect(seen.drafts.map(({ testId }) => testId)).toEqual(["T-1", "T-2"]);
  });

  test("has files that a person can read: each with its schema, indented, ending in a line end", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    must(await store.saveDraft(draft("T-2", 3)));
    must(await store.record(testEntry("T-1")));
    await store.close();
    const texts = new Map<string, string>();
    for (const name of [
      "station.json",
      "drafts/T-2.json",
      "log/head.json",
      "log/2026/11/2026-11-24.json",
      "index/2026-11.json",
    ])
      texts.set(name, await readFile(join(folder, name), "utf8"));
    for (const [name, text] of texts) {
      expect(text, name).toMatch(/^\{\n(?: {2}"sum": "[0-9a-f]{64}",\n)? {2}"schema": "sievewright\.[a-z]+\/1",\n/);
      expect(text, name).toMatch(/\}\n$/);
    }
    expect(
      texts
        .get("index/2026-11.json")
        ?.split("\n")
        .filter((line) => line.includes('"testId":"T-1"')),
    ).toHaveLength(1);
  });
});

describe("opening is quick", () => {
  test("it reads the station, its people, the drafts, the head and the newest day, however long the log", async () => {
    const disk = new ModelDisk();
    const first = must(await openStore("/station", { ...options, create: station, disk }));
    const days = Array.from({ length: 40 }, (_, i) => new Date(Date.UTC(2026, 0, 1 + 9 * i, 12)).toISOString());
    for (const [i, at] of days.entries()) must(await first.record(testEntry(`T-${i}`, at)));
    must(await first.saveDraft(draft("D-1")));
    await first.close();
    disk.steps.length = 0;
    const again = must(await openStore("/station", { ...options, disk }));
    const read = disk.steps.filter(({ call }) => call === "read").map(({ path }) => path);
    await again.close();
    expect([...new Set(read)].sort()).toEqual([
      "/station/drafts/D-1.json",
      "/station/log/2026/12/2026-12-18.json",
      "/station/log/head.json",
      "/station/operators.json",
      "/station/operators.next.json",
      "/station/station.json",
    ]);
  });

  test("a save touches one draft, a record one day, one head and one month, however long the log", async () => {
    const written = async (months: number): Promise<string[][]> => {
      const disk = new ModelDisk();
      const store = must(await openStore("/station", { ...options, create: station, disk }));
      const entries = Array.from({ length: months }, (_, i) =>
        testEntry(`F-${i}`, `2025-${`${i + 1}`.padStart(2, "0")}-10T12:00:00Z`),
      );
      must(await store.recordAll(entries));
      must(await store.record(testEntry("T-0")));
      must(await store.reindex());
      const renamed = async (work: () => Promise<unknown>): Promise<string[]> => {
        disk.steps.length = 0;
        await work();
        return disk.steps
          .filter(({ call }) => call === "rename" || call === "remove" || call === "read")
          .map(({ path }) => path);
      };
      const save = await renamed(() => store.saveDraft(draft("T-1", 1)));
      const record = await renamed(async () => {
        must(await store.record(testEntry("T-1")));
        await store.close();
      });
      return [save, record];
    };
    const young = await written(0);
    expect(young[0]).toEqual(["/station/drafts/T-1.json"]);
    expect(new Set(young[1])).toEqual(
      new Set([
        "/station/log/2026/11/2026-11-24.json",
        "/station/log/head.json",
        "/station/index/2026-11.json",
        "/station/drafts/T-1.json",
        "/station/station.lock",
      ]),
    );
    expect(await written(12)).toEqual(young);
  });
});
