import { execFileSync } from "node:child_process";
import { mkdir, readdir, readFile, symlink, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { isCopiedPath } from "../../src/record/backup.ts";
import { makeBackup } from "../../src/store/backup.ts";
import { sha256Of } from "../../src/store/backupCopy.ts";
import { dayPath } from "../../src/store/layout.ts";
import { realDisk } from "../../src/store/realDisk.ts";
import type { Store } from "../../src/store/store.ts";
import { verifyLog } from "../../src/store/verify.ts";
import { must, mustNot, opened } from "./opened.ts";
import { draft, note, product, testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const about = { station: "TH-DRY1", at: "2026-11-24T14:00:00+01:00", program: "0.0.0-test" };

async function busyStation(): Promise<{ folder: string; store: Store; place: string }> {
  const place = await temporaryFolder();
  const folder = join(place, "station");
  const store = await opened(folder);
  must(await store.record(testEntry("T-1")));
  must(await store.record(note("x", "2026-11-25T09:00:00+01:00")));
  must(await store.record(note("y", "2026-12-01T09:00:00+01:00")));
  must(await store.saveDraft(draft("T-2", 2)));
  const loading = { fromPath: "x.json", bytesSha256: "a".repeat(64), by: "KO", at: "2026-12-01T10:00:00+01:00" };
  must(await store.addProduct(product, loading));
  return { folder, store, place };
}

const names = async (folder: string): Promise<string[]> =>
  (await readdir(folder, { recursive: true, withFileTypes: true }))
    .filter((one) => one.isFile())
    .map((one) => join(one.parentPath, one.name).slice(folder.length + 1))
    .sort();

const COPIED = [
  "drafts/T-2.json",
  "library/products/TH-0510.rev3.json",
  "log/2026/11/2026-11-24.json",
  "log/2026/11/2026-11-25.json",
  "log/2026/12/2026-12-01.json",
  "log/head.json",
  "station.json",
];

describe("a backup into a folder", () => {
  test("holds every record and neither index nor lock, each file as it was, and a manifest that says so", async () => {
    const { folder, place } = await busyStation();
    const copy = join(place, "copy");
    const { manifest, sha256, broken, leftOut } = must(await makeBackup(folder, copy, about));
    expect(await names(copy)).toEqual([...COPIED, "manifest.json"].sort());
    expect({ broken, leftOut }).toEqual({ broken: null, leftOut: [] });
    const text = await readFile(join(copy, "manifest.json"), "utf8");
    expect(sha256Of(text)).toBe(sha256);
    expect(JSON.parse(text)).toEqual(manifest);
    for (const { path, bytes, sha256: seal } of manifest.files) {
      const there = await readFile(join(copy, path));
      expect([path, there.length, sha256Of(there)]).toEqual([path, bytes, seal]);
      expect(there).toEqual(await readFile(join(folder, path)));
    }
    expect(manifest).toMatchObject({ ...about, schema: "sievewright.backup/1", head: { number: 4 } });
  });

  test("proves by itself, and opens by itself", async () => {
    const { folder, place } = await busyStation();
    const copy = join(place, "copy");
    const { manifest } = must(await makeBackup(folder, copy, about));
    expect(await verifyLog(copy)).toMatchObject({ ok: true, entries: 4, head: manifest.head });
    const store = await opened(copy);
    expect(store.problems).toEqual([]);
    expect((await store.recentRows(9)).map(({ testId }) => testId)).toEqual(["T-1"]);
  });

  test("is not made where something lies already, inside the station, or where there is no folder", async () => {
    const { folder, place } = await busyStation();
    const to = async (path: string) => mustNot(await makeBackup(folder, path, about));
    await mkdir(join(place, "there"));
    expect(await to(join(place, "there"))).toMatch(
      /is there already and is not replaced: give the new backup another name$/,
    );
    expect(await to(join(folder, "copy"))).toMatch(/lies in the station's own folder/);
    expect(await to(folder)).toMatch(/lies in the station's own folder/);
    expect(await to(join(place, "no", "copy"))).toMatch(/^there is no folder .*no: make it/);
    expect((await readdir(place)).sort()).toEqual(["station", "there"]);
  });
});

describe("a backup into an archive", () => {
  test("holds the same files; any tar reads it", async () => {
    const { folder, place } = await busyStation();
    const copy = join(place, "copy.tgz");
    const { manifest } = must(await makeBackup(folder, copy, about));
    const listed = execFileSync("tar", ["-tzf", copy], { encoding: "utf8" }).trim().split("\n");
    expect(listed.sort()).toEqual([...COPIED, "manifest.json"].sort());
    expect(manifest.files.map(({ path }) => path).sort()).toEqual(COPIED);
    expect(await readdir(place)).not.toContainEqual(expect.stringMatching(/tmp$/));
  });

  test("is not put in the place of another", async () => {
    const { folder, place } = await busyStation();
    await writeFile(join(place, "copy.tgz"), "older");
    expect(mustNot(await makeBackup(folder, join(place, "copy.tgz"), about))).toMatch(/is not replaced/);
    expect(await readFile(join(place, "copy.tgz"), "utf8")).toBe("older");
  });

  test("takes a day of many megabytes and hundreds of files", async () => {
    const { folder, store, place } = await busyStation();
    const long = "x".repeat(390);
    must(
      await store.recordAll(Array.from({ length: 9000 }, (_, i) => note(`${i} ${long}`, "2026-12-01T11:00:00+01:00"))),
    );
    for (let i = 0; i < 300; i += 1) must(await store.saveDraft(draft(`D-${i}`, 1)));
    const { manifest, broken } = must(await makeBackup(folder, join(place, "copy.tgz"), about));
    expect(broken).toBe(null);
    expect(manifest.files.length).toBe(COPIED.length + 300);
    const day = execFileSync("tar", ["-xzOf", join(place, "copy.tgz"), "log/2026/12/2026-12-01.json"], {
      maxBuffer: 2 ** 25,
    });
    expect(day.equals(await readFile(dayPath(folder, "2026-12-01")))).toBe(true);
  });
});

describe("a backup while somebody records", () => {
  const later = ["2026-12-01", "2026-12-01", "2026-12-02", "2026-12-02", "2026-12-03", "2027-01-01", "2027-01-01"];
  const setBack = ["2026-12-01", "2026-11-25", "2026-12-02", "2026-11-24"];

  test.each([
    ["copy", "days that follow", later],
    ["copy.tgz", "days that follow", later],
    ["copy", "days of a clock that is set to and fro", setBack],
    ["copy.tgz", "days of a clock that is set to and fro", setBack],
  ])("%s is whole though an entry is recorded at each file that is read, in %s", async (name, _, days) => {
    const { folder, store, place } = await busyStation();
    let n = 0;
    const reading = {
      ...realDisk,
      async read(path: string) {
        const day = days[n];
        n += 1;
        if (day !== undefined) must(await store.record(testEntry(`B-${n}`, `${day}T12:00:00+01:00`)));
        return realDisk.read(path);
      },
    };
    const { manifest, broken } = must(await makeBackup(folder, join(place, name), about, reading));
    expect(broken).toBe(null);
    expect(manifest.head.number).toBeGreaterThan(4);
    expect(n).toBeGreaterThanOrEqual(days.length);
  });

  test("holds a test that is being recorded as a draft, as an entry, or as both", async () => {
    const { folder, store, place } = await busyStation();
    for (let at = 0; at < 12; at += 1) {
      must(await store.saveDraft(draft(`R-${at}`, 5)));
      let reads = 0;
      const disk = {
        ...realDisk,
        async read(path: string) {
          reads += 1;
          if (reads === at) must(await store.record(testEntry(`R-${at}`, "2026-12-01T13:00:00+01:00")));
          return realDisk.read(path);
        },
      };
      const copy = join(place, `copy-${at}`);
      must(await makeBackup(folder, copy, about, disk));
      const texts = await Promise.all((await names(copy)).map((name) => readFile(join(copy, name), "utf8")));
      expect(texts.filter((text) => text.includes(`"testId": "R-${at}"`)).length).toBeGreaterThan(0);
    }
  });
});

describe("a station that is not as it should be", () => {
  test("with a broken log is copied as it is, and the copy says how it is broken", async () => {
    const { folder, place } = await busyStation();
    const path = dayPath(folder, "2026-11-25");
    await writeFile(path, (await readFile(path, "utf8")).replace('"x"', '"z"'));
    const { broken } = must(await makeBackup(folder, join(place, "copy"), about));
    expect(broken).toMatch(/^log\/2026\/11\/2026-11-25\.json changed: entry 2/);
    expect(await readFile(join(place, "copy/log/2026/11/2026-11-25.json"), "utf8")).toContain('"z"');
  });

  test("keeps what was set aside, and leaves links, strangers' and half-written files out", async () => {
    const { folder, place } = await busyStation();
    await writeFile(join(folder, "drafts/T-9.json.unreadable"), new Uint8Array([0xff, 0]));
    await writeFile(join(folder, "Thumbs.db"), "x");
    await writeFile(join(folder, "drafts/T-3.json.0f8fad5b-d9cb-469f-a165-70867728950e.tmp"), "{");
    await symlink("/etc/passwd", join(folder, "drafts/T-4.json"));
    await symlink("/etc", join(folder, "library", "more"));
    const { manifest, leftOut } = must(await makeBackup(folder, join(place, "copy"), about));
    expect(manifest.files.map(({ path }) => path).sort()).toEqual([...COPIED, "drafts/T-9.json.unreadable"].sort());
    expect(leftOut).toEqual(["drafts/T-4.json: it is a link"]);
    expect(await readFile(join(place, "copy/drafts/T-9.json.unreadable"))).toEqual(Buffer.from([0xff, 0]));
  });

  test("or a disk that fails on the way leave nothing behind", async () => {
    const { folder, place } = await busyStation();
    for (const name of ["copy", "copy.tgz"])
      for (const at of [1, 3, 7]) {
        let reads = 0;
        const failing = {
          ...realDisk,
          async read(path: string) {
            reads += 1;
            if (reads === at) throw Object.assign(new Error("made up"), { code: "EIO" });
            return realDisk.read(path);
          },
        };
        expect(mustNot(await makeBackup(folder, join(place, name), about, failing))).toMatch(
          /is not made: the disk reports a fault\. Copy the station's folder to another disk now \(EIO\)$/,
        );
        expect(await readdir(place)).toEqual(["station"]);
      }
  });
});

test("a copy holds no path that leads out of it or that a platform can't have", () => {
  const fine = ["station.json", "operators.json", "log/head.json", "log/2026/11/2026-11-24.json", "drafts/T-1.json"];
  const unfit = [
    "../station.json",
    "log/../../x.json",
    "/etc/x.json",
    "C:/x.json",
    "c:x.json",
    "log\\x.json",
    "log//x.json",
    "log/./x.json",
    "./x.json",
    "drafts/con.json",
    "drafts/x.json.",
    "drafts/x.js",
    "drafts/.x.json",
    "index/2026-11.json",
    "backups/x.json",
    "manifest.json",
    "station.lock",
    "a/b/c/d/e/f.json",
    `${"a".repeat(120)}.json`,
    "drafts/x\u0000.json",
    "drafts/x\u202e.json",
    "",
  ];
  expect(fine.filter((path) => !isCopiedPath(path))).toEqual([]);
  expect(unfit.filter(isCopiedPath)).toEqual([]);
});
