import { rm } from "node:fs/promises";
import { describe, expect, test } from "vitest";
import type { IndexRow } from "../../src/record/indexRow.ts";
import { amendedPath, indexPath } from "../../src/store/layout.ts";
import type { Store } from "../../src/store/store.ts";
import { correction, type Place, recordedTest, saying } from "./amended.ts";
import { must, mustNot, opened } from "./opened.ts";
import { diskWithout } from "./outOfReach.ts";
import { testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const OCTOBER = "2026-10-30T10:00:00+01:00";
const DECEMBER = "2026-12-03T10:00:00+01:00";
const VOIDED = { corrections: 0, voided: true, waived: false };

const rowOf = async (store: Store, { day, number }: Place): Promise<IndexRow | undefined> =>
  (await store.indexRows(day.slice(0, 7))).find((row) => row.number === number);

/** A test of October that was voided in December, and one of November between them. */
async function voidedLater(): Promise<{ folder: string; place: Place }> {
  const folder = await temporaryFolder();
  const store = await opened(folder);
  const place = await recordedTest(store, "T-1", OCTOBER);
  await recordedTest(store, "T-2");
  must(await store.record(await saying(store, "voided", place, DECEMBER)));
  await store.close();
  return { folder, place };
}

describe("a void recorded while the day of its test can't be read", () => {
  test("is in force at once, is told as a problem, and stays in force after opening on a healthy disk", async () => {
    const folder = await temporaryFolder();
    const names = new Set<string>();
    const store = await opened(folder, { disk: diskWithout(names) });
    const place = await recordedTest(store, "T-1", OCTOBER);
    await recordedTest(store, "T-2");
    const said = await saying(store, "voided", place, DECEMBER);
    // The day goes out of reach only after it was looked at for the check of the entry.
    let reads = 0;
    names.has = (name) => {
      if (name === "2026-10-30.json") reads += 1;
      return name === "2026-10-30.json" && reads > 1;
    };
    must(await store.record(said));
    expect(await rowOf(store, place)).toMatchObject({ amended: VOIDED });
    expect(store.problems.join()).toContain("2026-10-30.json can't be read");
    await store.close();
    const again = await opened(folder);
    expect(await rowOf(again, place)).toMatchObject({ amended: VOIDED });
    expect(must(await again.history(place)).later).toHaveLength(1);
  });

  test("is refused when the day is out of reach for the check as well, and not as a test that isn't there", async () => {
    const { folder, place } = await voidedLater();
    const names = new Set<string>();
    const store = await opened(folder, { disk: diskWithout(names) });
    const said = await saying(store, "reinstated", place, DECEMBER);
    names.add("2026-10-30.json");
    expect(mustNot(await store.record(said))).toContain("2026-10-30.json can't be read");
    names.clear();
    must(await store.record(said));
  });
});

describe("amended tests drawn while a day can't be read", () => {
  test("of the test: no file is written, and the same store has them right as soon as the day is back", async () => {
    const { folder, place } = await voidedLater();
    await rm(amendedPath(folder));
    const names = new Set(["2026-10-30.json"]);
    const disk = diskWithout(names);
    const store = await opened(folder, { disk });
    expect(await rowOf(store, place)).toMatchObject({ amended: VOIDED });
    await store.close();
    expect(await disk.modifiedAtMs(amendedPath(folder))).toBeNull();
    const again = await opened(folder, { disk });
    await again.indexRows("2026-10");
    names.clear();
    expect(await rowOf(again, place)).toMatchObject({ amended: VOIDED });
    await again.close();
    expect(await disk.modifiedAtMs(amendedPath(folder))).not.toBeNull();
  });

  test("of the void itself: its history is refused rather than told without it, and comes right later", async () => {
    const { folder, place } = await voidedLater();
    for (const path of [amendedPath(folder), indexPath(folder, "2026-12")]) await rm(path);
    const more = await opened(folder);
    must(await more.record(testEntry("T-9", "2026-12-09T10:00:00+01:00")));
    await more.close();
    for (const path of [amendedPath(folder), indexPath(folder, "2026-12")]) await rm(path, { force: true });
    const names = new Set(["2026-12-03.json"]);
    const store = await opened(folder, { disk: diskWithout(names) });
    expect(mustNot(await store.history(place))).toContain("days of 2026-12 can't be read");
    names.clear();
    expect(must(await store.history(place)).later).toHaveLength(1);
    expect(await rowOf(store, place)).toMatchObject({ amended: VOIDED });
    await store.close();
    expect(await rowOf(await opened(folder), place)).toMatchObject({ amended: VOIDED });
  });

  test("known by the index alone: the history is refused, naming the day", async () => {
    const { folder, place } = await voidedLater();
    const more = await opened(folder);
    must(await more.record(testEntry("T-9", "2026-12-09T10:00:00+01:00")));
    await more.close();
    const store = await opened(folder, { disk: diskWithout(new Set(["2026-12-03.json"])) });
    expect(mustNot(await store.history(place))).toContain("2026-12-03.json can't be read");
    expect(await rowOf(store, place)).toMatchObject({ amended: VOIDED });
  });

  test("again, all of them: what was known before is not forgotten", async () => {
    const folder = await temporaryFolder();
    const names = new Set<string>();
    const store = await opened(folder, { disk: diskWithout(names) });
    const place = await recordedTest(store, "T-1", OCTOBER);
    must(await store.record(await correction(store, place, { field: "lot", to: "X" }, DECEMBER)));
    names.add("2026-10-30.json");
    must(await store.reindex());
    names.clear();
    expect(await rowOf(store, place)).toMatchObject({ lot: "X", amended: { corrections: 1 } });
  });
});
