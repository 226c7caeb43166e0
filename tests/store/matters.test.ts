import { readFile, rm, writeFile } from "node:fs/promises";
import { describe, expect, test } from "vitest";
import type { NewEntry } from "../../src/record/logEntry.ts";
import { amendedPath, dayPath, indexPath } from "../../src/store/layout.ts";
import type { Store } from "../../src/store/store.ts";
import { must, mustNot, opened } from "./opened.ts";
import { note, testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const OCTOBER = "2026-10-30T10:00:00+01:00";

const hold = (lot: string, at = OCTOBER): NewEntry => ({
  kind: "hold opened",
  at,
  by: "KO",
  product: "TH-0510",
  lot,
  line: "Dryer 1",
  of: null,
  owner: "SB",
  reason: "d50 above its limit",
});

const closing = (place: { day: string; number: number }, lot: string, at?: string): NewEntry => ({
  kind: "hold closed",
  at: at ?? "2026-11-24T10:00:00+01:00",
  by: "SB",
  hold: { day: place.day, number: place.number },
  product: "TH-0510",
  lot,
  disposition: "rework",
  reason: "screened again",
});

const adjusted = (at: string): NewEntry => ({
  kind: "line adjusted",
  at,
  by: "KO",
  line: "Dryer 1",
  what: "deck",
  detail: "2.5 mm put in",
});

describe("matters of a station", () => {
  test("of earlier months are known after opening again, whatever the index lost", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    const october = must(await store.record(hold("4471-A")));
    must(await store.record(testEntry("T-1")));
    must(await store.record(hold("4471-B", "2026-11-24T09:00:00+01:00")));
    const numbers = [1, 3];
    expect((await store.matters()).map(({ number }) => number)).toEqual(numbers);
    await store.close();
    for (const damage of [
      async () => undefined,
      () => rm(amendedPath(folder), { force: true }),
      () => rm(indexPath(folder, "2026-10"), { force: true }),
      () => writeFile(amendedPath(folder), "{}"),
    ]) {
      await damage();
      const again = await opened(folder);
      expect((await again.matters()).map(({ number }) => number)).toEqual(numbers);
      expect((await again.matters())[0]).toEqual(october);
      await again.close();
    }
  });

  test("of holds that were closed drop out, however they are read, and control limits stay", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    const december = "2026-12-01T10:00:00+01:00";
    for (const lot of ["A", "B", "C"]) must(await store.record(hold(lot)));
    must(await store.record(closing({ day: "2026-10-30", number: 1 }, "A")));
    must(await store.record(closing({ day: "2026-10-30", number: 3 }, "C", december)));
    const file = async () => JSON.parse(await readFile(amendedPath(folder), "utf8"));
    const numbers = async (from: Store) => (await from.matters()).map(({ number }) => number);
    expect(await numbers(store)).toEqual([2]);
    await store.close();
    const before = await file();
    expect(before.matters).toMatchObject([{ number: 2 }]);
    await rm(amendedPath(folder));
    const again = await opened(folder);
    expect(await numbers(again)).toEqual([2]);
    must(await again.reindex());
    await again.close();
    expect(await file()).toEqual(before);
  });

  test("that a lost day closed are open again: all months are looked through once more", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    must(await store.record(hold("A")));
    must(await store.record(closing({ day: "2026-10-30", number: 1 }, "A")));
    must(await store.record(adjusted("2026-11-25T10:00:00+01:00")));
    await store.close();
    await rm(dayPath(folder, "2026-11-24"));
    expect((await (await opened(folder)).matters()).map(({ number }) => number)).toEqual([1]);
  });

  test("can be closed in a later month, once", async () => {
    const store = await opened(await temporaryFolder());
    const place = must(await store.record(hold("4471-A")));
    must(await store.record(closing(place, "4471-A")));
    expect((await store.matters()).map(({ kind }) => kind)).toEqual([]);
    expect(mustNot(await store.record(closing(place, "4471-A")))).toContain("there is no open hold no. 1");
    expect(mustNot(await store.record(closing({ day: "2026-10-30", number: 7 }, "4471-A")))).toContain("no open hold");
  });

  test("that don't fit are not recorded and leave the log as it was", async () => {
    const store = await opened(await temporaryFolder());
    must(await store.record(hold("4471-A")));
    expect(mustNot(await store.record(hold("4471-A", "2026-11-24T09:00:00+01:00")))).toContain("on hold already");
    expect(store.head()?.number).toBe(1);
  });
});

describe("events of a month", () => {
  test("are handed out in the order of the log, and notes and tests are not among them", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    const at = "2026-11-24T09:00:00+01:00";
    must(await store.record(adjusted(at)));
    must(await store.record(note("lid rattles")));
    must(await store.record(testEntry("T-1")));
    must(await store.record(hold("4471-A", at)));
    const kinds = async () => (await store.events("2026-11")).map(({ kind, number }) => [kind, number]);
    expect(await kinds()).toEqual([
      ["line adjusted", 1],
      ["hold opened", 4],
    ]);
    must(await store.reindex());
    expect(await kinds()).toEqual([
      ["line adjusted", 1],
      ["hold opened", 4],
    ]);
    expect(await store.events("2026-10")).toEqual([]);
  });
});

describe("the head", () => {
  test("is none in an empty log and the last entry's afterwards", async () => {
    const store = await opened(await temporaryFolder());
    expect(store.head()).toBeNull();
    must(await store.record(note("first")));
    expect(store.head()).toMatchObject({ number: 1 });
    expect(store.head()?.seal).toMatch(/^[0-9a-f]{64}$/);
  });
});
