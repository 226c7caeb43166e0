import { randomUUID } from "node:crypto";
import { mkdir, readdir, readFile, rm, symlink, utimes, writeFile } from "node:fs/promises";
import { hostname } from "node:os";
import { basename, dirname, join } from "node:path";
import { gzipSync } from "node:zlib";
import { Header } from "tar";
import { describe, expect, test } from "vitest";
import { accepted } from "../../src/entry/outcome.ts";
import { makeBackup } from "../../src/store/backup.ts";
import { sha256Of } from "../../src/store/backupCopy.ts";
import { dayPath } from "../../src/store/layout.ts";
import { openStore } from "../../src/store/openStore.ts";
import { realDisk } from "../../src/store/realDisk.ts";
import { type RestoreRequest, restoreBackup } from "../../src/store/restore.ts";
import { finishSwap } from "../../src/store/restoreSwap.ts";
import { verifyLog } from "../../src/store/verify.ts";
import { deadProcess } from "../faults/deadProcess.ts";
import { must, opened } from "./opened.ts";
import { draft, indexRowOf, note, now, station as stationRecord, testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const about = { station: "TH-DRY1", at: "2026-11-24T14:00:00+01:00", program: "0.0.0-test" };

/** A closed station of three entries and a draft, with a backup of either kind beside it. */
async function withBackups() {
  const place = await temporaryFolder();
  const station = join(place, "station");
  const store = await opened(station);
  must(await store.record(testEntry("T-1")));
  must(await store.record(note("second", "2026-11-25T09:00:00+01:00")));
  must(await store.record(note("third", "2026-11-25T10:00:00+01:00")));
  must(await store.saveDraft(draft("T-2", 2)));
  await store.close();
  const [folder, archive] = [join(place, "copy"), join(place, "copy.tgz")];
  must(await makeBackup(station, folder, about));
  must(await makeBackup(station, archive, about));
  return { place, station, folder, archive };
}

const recordMore = async (folder: string, ...texts: string[]): Promise<void> => {
  const store = await opened(folder);
  for (const text of texts) must(await store.record(note(text, "2026-11-26T09:00:00+01:00")));
  await store.close();
};

/** Restores, and says so in the restored log as the command does. */
const restore = (backup: string, folder: string, more: Partial<RestoreRequest> = {}) =>
  restoreBackup({
    backup,
    folder,
    now: "2026-11-27T08:00:00+01:00",
    replace: false,
    despiteNewer: false,
    despiteBroken: false,
    giveWay: async () => accepted(undefined),
    tell: async (staged, told) => {
      const store = await opened(staged);
      must(await store.record({ kind: "restored", at: "2026-11-27T08:00:00+01:00", by: "SB", ...told }));
      must(await store.reindex());
      await store.close();
      return accepted(undefined);
    },
    ...more,
  });

const reasonOf = async (restored: ReturnType<typeof restore>): Promise<string> => {
  const outcome = await restored;
  return outcome.ok ? "restored" : `${outcome.why}: ${outcome.reason}`;
};

/** Every file below a folder with the SHA-256 of its bytes. */
async function stateOf(folder: string): Promise<Record<string, string>> {
  const files = (await readdir(folder, { recursive: true, withFileTypes: true })).filter((one) => one.isFile());
  const paths = files.map((one) => join(one.parentPath, one.name)).sort();
  return Object.fromEntries(
    await Promise.all(paths.map(async (path) => [path.slice(folder.length), sha256Of(await readFile(path))])),
  );
}

describe("a backup into an empty place", () => {
  test.each(["folder", "archive"] as const)(
    "from a %s: opens, proves, has its index, tells where it comes from",
    async (form) => {
      const made = await withBackups();
      const again = join(made.place, "again");
      const restored = await restore(made[form], again);
      expect(restored).toMatchObject({ ok: true, value: { keptIn: null, vanished: null } });
      expect(await verifyLog(again, undefined, { index: true })).toMatchObject({
        ok: true,
        entries: 4,
        indexAmiss: [],
      });
      const store = await opened(again);
      expect([store.readOnly, store.problems]).toEqual([null, []]);
      expect(store.drafts()).toEqual([draft("T-2", 2)]);
      expect((await store.recentRows(9)).map(({ testId }) => testId)).toEqual(["T-1"]);
      const [told] = await store.entriesOfDay("2026-11-27");
      expect(told).toMatchObject({
        kind: "restored",
        from: basename(made[form]),
        sha256: sha256Of(await readFile(join(made.folder, "manifest.json"))),
        head: { number: 3 },
        replaced: null,
      });
      expect((await readdir(made.place)).sort()).toEqual(["again", "copy", "copy.tgz", "station"]);
    },
  );

  test("that is there and empty is used as it is", async () => {
    const { place, archive } = await withBackups();
    await mkdir(join(place, "again"));
    expect(await restore(archive, join(place, "again"))).toMatchObject({ ok: true });
    expect(await verifyLog(join(place, "again"))).toMatchObject({ ok: true, entries: 4 });
  });

  test("is refused where something else lies", async () => {
    const { place, archive } = await withBackups();
    await mkdir(join(place, "letters"));
    await writeFile(join(place, "letters", "a.txt"), "x");
    for (const replace of [false, true])
      expect(await reasonOf(restore(archive, join(place, "letters"), { replace }))).toMatch(
        /^in the way: .*letters is neither empty nor a station/,
      );
    expect(await readdir(join(place, "letters"))).toEqual(["a.txt"]);
  });
});

describe("a backup over a station that is there", () => {
  test("is refused unless it is asked for, and leaves everything as it was", async () => {
    const { station, archive, place } = await withBackups();
    const before = await stateOf(place);
    expect(await reasonOf(restore(archive, station))).toMatch(/^in the way: there is a station in .*add --replace/);
    expect(await stateOf(place)).toEqual(before);
  });

  test("keeps what was there under another name, whole, and names it in the log", async () => {
    const { station, archive, place } = await withBackups();
    await rm(dayPath(station, "2026-11-25"));
    const before = await stateOf(station);
    const restored = await restore(archive, station, { replace: true });
    const keptIn = "station.before-2026-11-27-0800";
    expect(restored).toMatchObject({ ok: true, value: { keptIn, vanished: null } });
    expect(await stateOf(join(place, keptIn))).toEqual(before);
    expect(await verifyLog(station)).toMatchObject({ ok: true, entries: 4 });
    const [told] = await (await opened(station)).entriesOfDay("2026-11-27");
    expect(told).toMatchObject({ replaced: { number: 1, keptIn } });
  });

  test("is refused where the station has entries that the backup lacks, and names them", async () => {
    const { station, archive, place } = await withBackups();
    await recordMore(station, "fourth", "fifth");
    const before = await stateOf(place);
    expect(await reasonOf(restore(archive, station, { replace: true }))).toBe(
      "in the way: its log is newer than the backup: entries 4 to 5 would vanish from it. Nothing was changed; add --despite-newer to restore all the same",
    );
    expect(await stateOf(place)).toEqual(before);
  });

  test("takes the place of a newer one only when that is asked for too, and both logs can be proven after", async () => {
    const { station, archive, place } = await withBackups();
    await recordMore(station, "fourth");
    const restored = await restore(archive, station, { replace: true, despiteNewer: true });
    expect(restored).toMatchObject({ ok: true, value: { vanished: "entry 4" } });
    expect(await verifyLog(station)).toMatchObject({ ok: true, entries: 4 });
    expect(await verifyLog(join(place, "station.before-2026-11-27-0800"))).toMatchObject({ ok: true, entries: 4 });
  });

  test("is refused where a test in work or a file of the library is not in the backup, and names it", async () => {
    const { station, archive, place } = await withBackups();
    const store = await opened(station);
    must(await store.saveDraft(draft("T-2", 3)));
    must(await store.saveDraft(draft("T-3", 2)));
    const blank = draft("T-4");
    const weighings = blank.weighings.map((one) => ({ ...one, emptyG: null, fullG: null }));
    must(await store.saveDraft({ ...blank, chargeG: null, weighings }));
    await store.close();
    await mkdir(join(station, "library/sieves"), { recursive: true });
    await writeFile(join(station, "library/sieves/S-9.json"), "{}");
    const before = await stateOf(place);
    expect(await reasonOf(restore(archive, station, { replace: true }))).toBe(
      "in the way: not in the backup, and gone with it: drafts/T-2.json (otherwise in the backup), drafts/T-3.json, library/sieves/S-9.json. Nothing was changed; add --despite-newer to restore all the same",
    );
    expect(await stateOf(place)).toEqual(before);
    expect(await restore(archive, station, { replace: true, despiteNewer: true })).toMatchObject({
      ok: true,
      value: { vanished: expect.stringContaining("drafts/T-3.json") },
    });
  });

  test("is refused over a log that went another way, and says from which entry on", async () => {
    const { station, place } = await withBackups();
    await recordMore(station, "fourth", "fifth");
    must(await makeBackup(station, join(place, "later"), about));
    await rm(station, { recursive: true });
    expect(await restore(join(place, "copy"), station)).toMatchObject({ ok: true });
    await recordMore(station, "another fifth", "another sixth");
    expect(await reasonOf(restore(join(place, "later"), station, { replace: true }))).toMatch(
      /^in the way: its log is another one than the backup's: entries 4 to 6 are not as in the backup and would vanish/,
    );
  });

  test("is refused while the station is open, and says by whom", async () => {
    const { station, archive } = await withBackups();
    await opened(station);
    expect(await reasonOf(restore(archive, station, { replace: true }))).toMatch(
      /^in the way: another Sievewright \(process \d+, since 2026-11-24 08:00\) has this station open\. Close it there/,
    );
  });

  test("leaves the station alone when the restored one can't be told", async () => {
    const { station, archive, place } = await withBackups();
    const before = await stateOf(place);
    const tell = async () => ({ ok: false, reason: "SB may not restore" }) as const;
    expect(await reasonOf(restore(archive, station, { replace: true, tell }))).toBe("disk: SB may not restore");
    expect(await stateOf(place)).toEqual(before);
  });
});

interface LooseManifest {
  station: string;
  head: { number: number };
  files: { path: string; bytes: number; sha256: string }[];
}

describe("a backup that is not what its manifest says", () => {
  /** What is said of a folder backup after this was done to it; nothing may be touched. */
  async function saidOf(change: (folder: string) => Promise<unknown>): Promise<string> {
    const { folder, place } = await withBackups();
    await change(folder);
    const before = await stateOf(place);
    const reason = await reasonOf(restore(folder, join(place, "again")));
    expect(await stateOf(place)).toEqual(before);
    expect(reason).toContain(`unfit: ${folder} can't be restored: `);
    return reason.slice(reason.indexOf("restored: ") + 10);
  }
  const day = (folder: string) => dayPath(folder, "2026-11-25");
  const editManifest = async (folder: string, change: (manifest: LooseManifest) => void): Promise<void> => {
    const path = join(folder, "manifest.json");
    const manifest: LooseManifest = JSON.parse(await readFile(path, "utf8"));
    change(manifest);
    await writeFile(path, JSON.stringify(manifest));
  };

  test("one changed byte", async () =>
    expect(
      await saidOf(async (f) => writeFile(day(f), (await readFile(day(f), "utf8")).replace("third", "thirD"))),
    ).toBe(
      "log/2026/11/2026-11-25.json in it is not as it was copied: its bytes or its SHA-256 differ from the manifest",
    ));

  test("a missing file", async () =>
    expect(await saidOf((f) => rm(join(f, "log/head.json")))).toBe("log/head.json is missing in it"));

  test("a file more", async () =>
    expect(await saidOf((f) => writeFile(join(f, "drafts/T-9.json"), "{}"))).toBe(
      "it holds drafts/t-9.json, which its manifest doesn't name",
    ));

  test.each(["notes.txt", ".hidden.json", "index.json/x.json"])("a stranger's file %s", async (name) =>
    expect(
      await saidOf(async (f) => {
        await mkdir(dirname(join(f, name)), { recursive: true });
        await writeFile(join(f, name), "{}");
      }),
    ).toMatch(/^it holds .*, which (is no path of a station's file|its manifest doesn't name)$/),
  );

  test("a link", async () =>
    expect(
      await saidOf(async (f) => {
        await rm(join(f, "station.json"));
        await symlink("/etc/hostname", join(f, "station.json"));
      }),
    ).toBe("it holds station.json, which is no plain file: only plain files are restored"));

  test("no manifest", async () =>
    expect(await saidOf((f) => rm(join(f, "manifest.json")))).toBe(
      "it has no manifest.json: it is no backup of Sievewright, or half of one",
    ));

  test.each([
    ["", "its manifest.json can't be used: the file is empty"],
    ["null", "its manifest.json can't be used: expected sievewright.backup/1, found no schema"],
    ['{"schema":"sievewright.backup/2"}', "its manifest.json can't be used: written by a newer Sievewright"],
    ["[".repeat(100_000), "its manifest.json can't be used: the file nests brackets deeper"],
  ])("a manifest that reads %.20j", async (text, why) =>
    expect(await saidOf((f) => writeFile(join(f, "manifest.json"), text))).toContain(why),
  );

  test.each(["../x.json", "/etc/x.json", "log/../../x.json", "C:\\x.json", "index/2026-11.json"])(
    "a manifest that names %s",
    async (path) =>
      expect(
        await saidOf((f) => editManifest(f, (m) => m.files.push({ path, bytes: 2, sha256: sha256Of("{}") }))),
      ).toMatch(/^its manifest\.json can't be used: damaged at files, item \d+, path: is no path of a station's file$/),
  );

  test("a head that is not the log's", async () =>
    expect(
      await saidOf((f) =>
        editManifest(f, (m) => {
          m.head.number = 4;
        }),
      ),
    ).toBe("its log ends with entry 3, its manifest says entry 4"));

  test("of another station", async () =>
    expect(
      await saidOf((f) =>
        editManifest(f, (m) => {
          m.station = "TH-MILL";
        }),
      ),
    ).toBe("its manifest is of station TH-MILL, its station.json of another"));

  test("a log that was forged together with its manifest is still told by its chain", async () => {
    const { folder, place } = await withBackups();
    const forged = (await readFile(day(folder), "utf8")).replace("second", "other!");
    await writeFile(day(folder), forged);
    await editManifest(folder, (m) => {
      for (const one of m.files) if (one.path.endsWith("25.json")) one.sha256 = sha256Of(forged);
    });
    expect(await reasonOf(restore(folder, join(place, "again")))).toMatch(
      /^unfit: .*: its log was broken when it was copied: log\/2026\/11\/2026-11-25\.json changed: entry 2 is not/,
    );
    expect(await restore(folder, join(place, "again"), { despiteBroken: true })).toMatchObject({ ok: true });
  });

  test("nothing at all", async () =>
    expect(await reasonOf(restore("/no/such/backup.tgz", join(await temporaryFolder(), "x")))).toBe(
      "unfit: /no/such/backup.tgz can't be restored: there is no such file or folder",
    ));
});

interface Member {
  readonly path: string;
  readonly content?: string;
  readonly size?: number;
  readonly type?: "File" | "SymbolicLink" | "Link" | "CharacterDevice" | "Directory" | "FIFO";
  readonly linkpath?: string;
}

/** An archive byte by byte, with whatever names and types an attacker may like. */
function archiveOf(members: readonly Member[]): Buffer {
  const blocks = members.flatMap(({ path, content = "", size = content.length, type = "File", linkpath }) => {
    const header = new Header({
      path: "x",
      size: type === "File" ? size : 0,
      type,
      mode: 0o600,
      ...(linkpath ? { linkpath } : {}),
    });
    const block = Buffer.alloc(512);
    header.encode(block);
    block.fill(0, 0, 100);
    block.write(path, 0, 100, "utf8");
    block.fill(" ", 148, 156);
    const sum = block.reduce((all, byte) => all + byte, 0);
    block.write(`${sum.toString(8).padStart(6, "0")}\0 `, 148, "latin1");
    const padded = Buffer.alloc(Math.ceil(content.length / 512) * 512);
    padded.write(content);
    return [block, padded];
  });
  return gzipSync(Buffer.concat([...blocks, Buffer.alloc(1024)]));
}

describe("a hostile archive", () => {
  async function saidOf(bytes: Buffer): Promise<string> {
    const place = await temporaryFolder();
    const archive = join(place, "evil.tgz");
    await writeFile(archive, bytes);
    const reason = await reasonOf(restore(archive, join(place, "again")));
    expect((await readdir(place, { recursive: true })).sort()).toEqual(["evil.tgz"]);
    return reason.replace(/^unfit: .*? can't be restored: /, "");
  }

  test.each([
    "../evil.json",
    "/tmp/evil.json",
    "log/../../evil.json",
    "C:/evil.json",
    "..\\evil.json",
    "log\\..\\..\\evil.json",
    "drafts/con.json",
    "drafts/\u001b[2Jx.json",
    "backups/x.json",
    "station.lock",
    "x".repeat(99),
  ])("that names %j", async (path) =>
    expect(await saidOf(archiveOf([{ path, content: "{}" }]))).toMatch(
      /^it holds .*, which is no path of a station's file$/,
    ),
  );

  test.each(["SymbolicLink", "Link", "CharacterDevice", "Directory", "FIFO"] as const)(
    "that holds a %s",
    async (type) =>
      expect(
        await saidOf(
          archiveOf([{ path: "drafts/x.json", type, ...(type.endsWith("ink") ? { linkpath: "/etc/passwd" } : {}) }]),
        ),
      ).toBe(`it holds a ${type}: only plain files are restored`),
  );

  test("that holds a file twice, even in other letters", async () =>
    expect(
      await saidOf(
        archiveOf([
          { path: "drafts/a.json", content: "{}" },
          { path: "drafts/A.json", content: "[]" },
        ]),
      ),
    ).toBe('it holds "drafts/A.json" twice'));

  test("that claims a file beyond measure", async () =>
    expect(await saidOf(archiveOf([{ path: "drafts/a.json", size: 300 * 2 ** 20 }]))).toMatch(
      /^it holds "drafts\/a\.json" with 314572800 bytes: no file of a station is so large$/,
    ));

  test("that swells beyond measure", async () => {
    const members = Array.from({ length: 40 }, (_, i) => ({ path: `drafts/a${i}.json`, content: " ".repeat(2 ** 20) }));
    expect(await saidOf(archiveOf(members))).toBe("it swells beyond measure when it is unpacked");
  });

  test.each([
    ["is empty", Buffer.alloc(0)],
    ["is text", Buffer.from("hello ".repeat(500))],
    ["is compressed text", gzipSync("hello ".repeat(500))],
    ["is cut short", archiveOf([{ path: "drafts/a.json", content: "{}".repeat(5000) }]).subarray(0, 60)],
    ["holds nothing", archiveOf([])],
  ])("that %s", async (_, bytes) =>
    expect(await saidOf(bytes)).toMatch(/^(it is no whole archive: |it has no manifest\.json: it is no backup)/),
  );
});

describe("a crash in the middle", () => {
  /** A disk that dies before its n-th rename, as a killed process would leave it. */
  const dyingBeforeRename = (n: number) => {
    let renames = 0;
    return {
      ...realDisk,
      async rename(from: string, to: string) {
        if (!/station(\.|$)/.test(basename(to)) && !to.endsWith("restoring.json")) return realDisk.rename(from, to);
        renames += 1;
        if (renames >= n) return new Promise<never>(() => undefined);
        return realDisk.rename(from, to);
      },
    };
  };

  test("a restore that is under way elsewhere is left alone by whoever opens the station meanwhile", async () => {
    const { station, folder, place } = await withBackups();
    const seen: string[] = [];
    let opening: Promise<unknown> | null = null;
    const slow = {
      ...realDisk,
      async rename(from: string, to: string) {
        if (from === station) {
          const staged = (await readdir(place)).filter((name) => name.startsWith("station.staged-"));
          opening = openStore(station, { now, indexRowOf, create: stationRecord });
          seen.push(await opening.then(JSON.stringify));
          expect((await readdir(place)).filter((name) => name.startsWith("station.staged-"))).toEqual(staged);
        }
        return realDisk.rename(from, to);
      },
    };
    const request = { backup: folder, folder: station, now: now(), replace: true, despiteNewer: true };
    const agrees = async () => accepted(undefined);
    const more = { despiteBroken: false, giveWay: agrees, tell: agrees };
    expect(await restoreBackup({ ...request, ...more }, slow)).toMatchObject({ ok: true });
    expect(seen).toEqual([expect.stringContaining("a backup is just being put in the place of this station")]);
    expect(await verifyLog(station)).toMatchObject({ ok: true, entries: 3 });
  });

  test.each([
    ["of a process that is gone", () => ({ pid: deadProcess() }), false],
    ["of an earlier life of this process", () => ({ pid: process.pid }), false],
    ["of a process that runs", () => ({ pid: process.ppid }), "under way"],
    ["of another computer, just begun", () => ({ pid: 1, host: "elsewhere" }), "under way"],
  ] as const)("a swap %s", async (_, writer, said) => {
    const { station, place } = await withBackups();
    await mkdir(join(place, "staged"));
    await writeFile(join(place, "staged", "station.json"), "{}");
    const by = { host: hostname(), token: randomUUID(), ...writer() };
    const swap = { schema: "sievewright.swap/1", station: "TH-DRY1", staged: "staged", aside: "aside", writer: by };
    const file = `${station}.restoring.json`;
    await writeFile(file, JSON.stringify(swap));
    expect(await finishSwap(station, realDisk)).toBe(said);
    expect((await readdir(place)).includes("staged")).toBe(said === "under way");
    const longAgo = new Date(Date.now() - 120_000);
    if (said === "under way") await utimes(file, longAgo, longAgo);
    expect(await finishSwap(station, realDisk)).toBe(false);
    expect(await readdir(place)).not.toContain("staged");
  });

  test.each([
    [1, "old"],
    [2, "old"],
    [3, "new"],
  ])("before rename %i leaves the %s station, whole", async (n, which) => {
    const { station, folder, place } = await withBackups();
    await recordMore(station, "fourth");
    const request = { replace: true, despiteNewer: true };
    let told = false;
    const underWay = restoreBackup(
      {
        backup: folder,
        folder: station,
        now: now(),
        despiteBroken: false,
        ...request,
        giveWay: async () => accepted(undefined),
        tell: async () => {
          told = true;
          return accepted(undefined);
        },
      },
      dyingBeforeRename(n),
    );
    await expect.poll(() => told).toBe(true);
    await expect.poll(async () => (await readdir(place)).includes("station.restoring.json") || n === 1).toBe(true);
    if (n === 3) await expect.poll(async () => (await readdir(place)).includes("station")).toBe(false);
    await rm(join(place, "station", "station.lock"), { force: true });
    const swapFile = join(place, "station.restoring.json");
    const left = n === 1 ? null : JSON.parse(await readFile(swapFile, "utf8"));
    if (left !== null)
      await writeFile(swapFile, JSON.stringify({ ...left, writer: { ...left.writer, pid: deadProcess() } }));
    const store = await opened(station, { pid: process.pid });
    expect(store.readOnly).toBe(null);
    const texts = (await store.entriesOfDay("2026-11-26")).map((entry) => entry.kind);
    expect(texts).toEqual(which === "old" ? ["note"] : []);
    expect(await verifyLog(station)).toMatchObject({ ok: true });
    expect(await readdir(place)).not.toContain("station.restoring.json");
    void underWay;
  });
});
