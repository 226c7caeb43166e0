import { mkdir, readdir, readFile, rm, utimes, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { accepted } from "../../src/entry/outcome.ts";
import { rollingCopy } from "../../src/store/backupRolling.ts";
import { copyPlace, generationsOf, lostSinceCopy, witnessOf } from "../../src/store/copyWitness.ts";
import { dayPath, headPath } from "../../src/store/layout.ts";
import { realDisk } from "../../src/store/realDisk.ts";
import { restoreBackup } from "../../src/store/restore.ts";
import type { Store } from "../../src/store/store.ts";
import { verifyLog } from "../../src/store/verify.ts";
import { must, mustNot, opened } from "./opened.ts";
import { draft, note, station, testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const about = { station: "TH-DRY1", at: "2026-11-24T14:00:00+01:00", program: "0.0.0-test" };
const NOON = Date.parse("2030-01-01T12:00:00Z");
const DAY_MS = 86_400_000;

async function used(): Promise<{ folder: string; store: Store }> {
  const folder = join(await temporaryFolder(), "station");
  const store = await opened(folder);
  must(await store.record(testEntry("T-1")));
  must(await store.record(note("second", "2026-11-25T09:00:00+01:00")));
  must(await store.saveDraft(draft("T-2", 2)));
  return { folder, store };
}

const copyAt = (
  folder: string,
  nowMs: number,
  more: { disk?: typeof realDisk; backups?: object; goOn?: () => boolean } = {},
) => {
  const place = copyPlace(folder, { ...station, ...(more.backups ? { backups: more.backups } : {}) });
  return rollingCopy({ folder, place, about, nowMs, goOn: more.goOn ?? (() => true) }, more.disk ?? realDisk);
};
const copiesIn = async (folder: string): Promise<string[]> => (await readdir(join(folder, "backups", "copies"))).sort();
const keptIn = async (folder: string): Promise<string[]> =>
  (await readdir(join(folder, "backups", "files"), { recursive: true, withFileTypes: true }))
    .filter((one) => one.isFile())
    .map((one) => one.name)
    .sort();

describe("an automatic copy", () => {
  test("keeps a day that has not changed once, however often it is copied", async () => {
    const { folder, store } = await used();
    expect(must(await copyAt(folder, NOON))).toBe("copied");
    must(await store.record(note("third", "2026-11-25T10:00:00+01:00")));
    expect(must(await copyAt(folder, NOON + 60_000))).toBe("copied");
    expect(await copiesIn(folder)).toEqual([
      expect.stringMatching(/^2030-01-01T12-00-00Z\.no2\.[0-9a-f]{12}\.json$/),
      expect.stringMatching(/^2030-01-01T12-01-00Z\.no3\.[0-9a-f]{12}\.json$/),
    ]);
    const kept = await keptIn(folder);
    expect(kept.filter((name) => name.startsWith("2026-11-24.json"))).toHaveLength(1);
    expect(kept.filter((name) => name.startsWith("2026-11-25.json"))).toHaveLength(2);
    expect(kept.filter((name) => name.startsWith("head.json"))).toHaveLength(2);
  });

  test("reads nothing again but what was written since", async () => {
    const { folder, store } = await used();
    must(await copyAt(folder, NOON));
    must(await store.record(note("third", "2026-11-25T10:00:00+01:00")));
    const read: string[] = [];
    const watching = {
      ...realDisk,
      async read(path: string) {
        read.push(path.slice(folder.length + 1));
        return realDisk.read(path);
      },
    };
    must(await copyAt(folder, NOON + 1000, { disk: watching }));
    expect([...new Set(read.filter((path) => !path.startsWith("backups")))].sort()).toEqual([
      "log/2026/11/2026-11-25.json",
      "log/head.json",
    ]);
  });

  test("is not made where nothing has changed, nor where none is asked for", async () => {
    const { folder } = await used();
    must(await copyAt(folder, NOON));
    expect(must(await copyAt(folder, NOON + DAY_MS))).toBe("unchanged");
    expect(await copiesIn(folder)).toHaveLength(1);
    expect(must(await copyAt(folder, NOON, { backups: { keep: 0, folder: "/no/such/place" } }))).toBe("unchanged");
  });

  test("keeps what a day was before somebody changed it", async () => {
    const { folder, store } = await used();
    await store.close();
    must(await copyAt(folder, NOON));
    const path = dayPath(folder, "2026-11-24");
    const text = await readFile(path, "utf8");
    await writeFile(path, text.replace("T-1", "T-9"));
    must(await copyAt(folder, NOON + 1000));
    const versions = (await keptIn(folder)).filter((name) => name.startsWith("2026-11-24.json"));
    const texts = await Promise.all(
      versions.map((name) => readFile(join(folder, "backups/files/log/2026/11", name), "utf8")),
    );
    expect(texts).toContain(text);
    expect(versions).toHaveLength(2);
  });

  test("leaves as many as are asked for, and drops the contents that no copy names", async () => {
    const { folder, store } = await used();
    for (let day = 0; day < 6; day += 1) {
      must(await store.record(note(`${day}`, "2026-11-25T10:00:00+01:00")));
      must(await copyAt(folder, NOON + day * DAY_MS, { backups: { keep: 3 } }));
    }
    expect((await copiesIn(folder)).map((name) => name.slice(0, 10))).toEqual([
      "2030-01-04",
      "2030-01-05",
      "2030-01-06",
    ]);
    expect((await keptIn(folder)).filter((name) => name.startsWith("2026-11-25.json"))).toHaveLength(3);
  });

  test("drops no content while one manifest can't be read", async () => {
    const { folder, store } = await used();
    must(await copyAt(folder, NOON, { backups: { keep: 2 } }));
    const before = await keptIn(folder);
    const [first = ""] = await copiesIn(folder);
    await writeFile(join(folder, "backups/copies", first.replace("2030", "2031").replace(".no2.", ".no900.")), "{");
    for (let day = 1; day < 5; day += 1) {
      must(await store.record(note(`${day}`, "2026-11-25T10:00:00+01:00")));
      must(await copyAt(folder, NOON + day * DAY_MS, { backups: { keep: 2 } }));
    }
    expect(await keptIn(folder)).toEqual(expect.arrayContaining(before));
  });

  test("stays when the clock that dated the ones before was ahead", async () => {
    const { folder, store } = await used();
    for (const [day, years] of [
      [0, 1],
      [1, 1],
      [2, 0],
      [3, 0],
    ] as const) {
      must(await store.record(note(`${day}`, "2026-11-25T10:00:00+01:00")));
      expect(must(await copyAt(folder, NOON + (day + 365 * years) * DAY_MS, { backups: { keep: 2 } }))).toBe("copied");
    }
    expect((await copiesIn(folder)).map((name) => name.slice(0, 10))).toEqual(["2030-01-03", "2030-01-04"]);
  });

  test.each([
    ["rotted", "{}"],
    ["gone", null],
  ])("puts a kept file that is %s back, so that the copies before can be restored again", async (_, rot) => {
    const { folder, store } = await used();
    await store.close();
    must(await copyAt(folder, NOON));
    const before = await copiesIn(folder);
    const [kept = ""] = (await keptIn(folder)).filter((name) => name.startsWith("2026-11-24"));
    const path = join(folder, "backups/files/log/2026/11", kept);
    const text = await readFile(path, "utf8");
    if (rot === null) await rm(path);
    else await writeFile(path, rot);
    expect(must(await copyAt(folder, NOON + 60_000))).toBe("unchanged");
    expect([await copiesIn(folder), await readFile(path, "utf8")]).toEqual([before, text]);
  });

  test("of a file that is written again as it was once heals what was kept of it then", async () => {
    const { folder, store } = await used();
    await store.close();
    must(await copyAt(folder, NOON));
    const day = dayPath(folder, "2026-11-24");
    const text = await readFile(day, "utf8");
    const [kept = ""] = (await keptIn(folder)).filter((name) => name.startsWith("2026-11-24"));
    await writeFile(join(folder, "backups/files/log/2026/11", kept), text.slice(0, -9));
    await utimes(day, new Date(NOON - DAY_MS), new Date(NOON - DAY_MS));
    must(await copyAt(folder, NOON + 60_000));
    expect(await readFile(join(folder, "backups/files/log/2026/11", kept), "utf8")).toBe(text);
  });

  test("takes the pages of handovers along", async () => {
    const { folder, store } = await used();
    must(await store.keepPage("handover-1", "all quiet\n"));
    must(await copyAt(folder, NOON));
    expect((await keptIn(folder)).filter((name) => name.startsWith("handover-1.txt."))).toHaveLength(1);
  });

  test("goes to another disk, under the station's name, and says so when that is not there", async () => {
    const { folder } = await used();
    const usb = join(await temporaryFolder(), "usb");
    expect(mustNot(await copyAt(folder, NOON, { backups: { folder: usb } }))).toBe(
      `no copy was made: ${usb} is not there. Connect that disk, or correct backups in station.json`,
    );
    await mkdir(usb);
    expect(must(await copyAt(folder, NOON, { backups: { folder: usb } }))).toBe("copied");
    expect(await readdir(join(usb, "TH-DRY1"))).toEqual(["copies", "files"]);
    expect(await readdir(folder)).not.toContain("backups");
  });

  test("ends where it stands when the station closes, and leaves no manifest", async () => {
    const { folder } = await used();
    let asked = 0;
    expect(must(await copyAt(folder, NOON, { goOn: () => ++asked < 3 }))).toBe("stopped");
    expect(await copiesIn(folder)).toEqual([]);
    expect(must(await copyAt(folder, NOON))).toBe("copied");
  });

  test("that fails says why in words", async () => {
    const { folder } = await used();
    const full = {
      ...realDisk,
      async writeAndSync() {
        throw Object.assign(new Error("made up"), { code: "ENOSPC" });
      },
    };
    expect(mustNot(await copyAt(folder, NOON, { disk: full }))).toMatch(
      /^no copy was made in .*backups: the disk is full/,
    );
    expect(await copiesIn(folder)).toEqual([]);
  });

  test("is restored by its manifest", async () => {
    const { folder, store } = await used();
    must(await copyAt(folder, NOON));
    must(await store.record(note("third", "2026-11-25T10:00:00+01:00")));
    must(await copyAt(folder, NOON + 1000));
    const [first = ""] = await copiesIn(folder);
    const again = join(await temporaryFolder(), "again");
    const restored = await restoreBackup({
      backup: join(folder, "backups/copies", first),
      folder: again,
      now: about.at,
      replace: false,
      despiteNewer: false,
      despiteBroken: false,
      giveWay: async () => accepted(undefined),
      tell: async () => accepted(undefined),
    });
    expect(restored).toMatchObject({ ok: true, value: { manifest: { head: { number: 2 } } } });
    expect(await verifyLog(again)).toMatchObject({ ok: true, entries: 2 });
  });

  test("with a file that was damaged is not restored", async () => {
    const { folder } = await used();
    must(await copyAt(folder, NOON));
    const [copy = ""] = await copiesIn(folder);
    const [kept = ""] = (await keptIn(folder)).filter((name) => name.startsWith("2026-11-24"));
    await writeFile(join(folder, "backups/files/log/2026/11", kept), "{}");
    const asked = { now: about.at, replace: false, despiteNewer: false, despiteBroken: false };
    const tell = async () => accepted(undefined);
    const giveWay = tell;
    const backup = join(folder, "backups/copies", copy);
    const restored = await restoreBackup({
      ...asked,
      backup,
      folder: join(await temporaryFolder(), "x"),
      giveWay,
      tell,
    });
    expect(restored).toMatchObject({
      ok: false,
      why: "unfit",
      reason: expect.stringContaining("is not as it was copied"),
    });
  });
});

describe("copies as witnesses", () => {
  test("tell by their names alone that the end of the log was cut off, head, index and all", async () => {
    const { folder, store } = await used();
    must(await copyAt(folder, NOON));
    await store.close();
    await rm(dayPath(folder, "2026-11-25"));
    await rm(headPath(folder));
    await rm(join(folder, "index"), { recursive: true });
    const copies = await generationsOf(copyPlace(folder, station), realDisk);
    const { firstBroken } = await verifyLog(folder, realDisk, { witnesses: copies.map(witnessOf) });
    expect(firstBroken?.how).toBe(
      "truncated: entry 2 is gone from the end of the log, for the copy of 2030-01-01 12:00 UTC knows entry 2",
    );
    const again = await opened(folder);
    expect(again.problems).toContainEqual(
      expect.stringMatching(
        /^the log ends with entry 1, but the copy of 2030-01-01 12:00 UTC holds the log up to entry 2/,
      ),
    );
    await again.close();
    const kinds = (await again.entriesOfDay("2026-11-24")).map(({ kind }) => kind);
    expect(kinds).toEqual(["test", "finding", "finding"]);
  });

  test("that lie on a share are not waited for when the station is opened, and tell all the same", async () => {
    const share = await temporaryFolder();
    const folder = join(await temporaryFolder(), "station");
    const elsewhere = { ...station, backups: { folder: share } };
    const store = await opened(folder, { create: elsewhere });
    must(await store.record(note("first", "2026-11-25T09:00:00+01:00")));
    must(await copyAt(folder, NOON, { backups: { folder: share } }));
    await store.close();
    await rm(join(folder, "log"), { recursive: true });
    await rm(join(folder, "index"), { recursive: true });
    const late: (() => void)[] = [];
    const asked = new Promise<void>((resolve) => late.push(resolve));
    const slow = {
      ...realDisk,
      list: async (path: string) =>
        path.startsWith(share) ? asked.then(() => realDisk.list(path)) : realDisk.list(path),
    };
    const again = await opened(folder, { disk: slow });
    expect(again.problems.join()).not.toContain("holds the log up to entry");
    for (const answer of late) answer();
    await expect.poll(() => again.problems.join(), { timeout: 10_000 }).toContain("holds the log up to entry 1");
  });

  test("say nothing against a log that has grown since, or where there are none", async () => {
    const { folder, store } = await used();
    expect(await generationsOf(copyPlace(folder, station), realDisk)).toEqual([]);
    must(await copyAt(folder, NOON));
    must(await store.record(note("third", "2026-11-25T10:00:00+01:00")));
    const copies = await generationsOf(copyPlace(folder, station), realDisk);
    expect(lostSinceCopy(copies, 3)).toBe(null);
    expect((await verifyLog(folder, realDisk, { witnesses: copies.map(witnessOf) })).ok).toBe(true);
  });
});

test("a file that is written twice within one tick of the disk's clock is read again", async () => {
  const { folder, store } = await used();
  await store.close();
  const path = join(folder, "station.json");
  const now = Date.now();
  await utimes(path, new Date(now), new Date(now));
  must(await copyAt(folder, now));
  const text = await readFile(path, "utf8");
  await writeFile(path, text.replace("chute", "belt"));
  await utimes(path, new Date(now), new Date(now));
  expect(must(await copyAt(folder, now + 1000))).toBe("copied");
  expect((await keptIn(folder)).filter((name) => name.startsWith("station.json"))).toHaveLength(2);
});
