import { describe, expect, onTestFinished, test } from "vitest";
import type { Outcome } from "../../src/entry/outcome.ts";
import { openStore } from "../../src/store/openStore.ts";
import type { Store } from "../../src/store/store.ts";
import { verifyLog } from "../../src/store/verify.ts";
import { must } from "../store/opened.ts";
import { CHEAP } from "../store/peopleAt.ts";
import { draft, indexRowOf, note, now, product, station, testEntry } from "../store/records.ts";
import { CUTS, CutDisk } from "./cutDisk.ts";
import { deadProcess } from "./deadProcess.ts";
import { fault, type ModelDisk } from "./modelDisk.ts";

const FOLDER = "/station";
const pid = deadProcess(); // whoever opens next finds that the process is gone
const NEXT_MONTH = "2026-12-01T10:00:00+01:00";
const sand = { ...product, name: "Filtersand für Körnung 0,5–1,0 mm" };
const lot = (testId: string, weighed: number) => ({ ...draft(testId, weighed), lot: "Körnung µ 4471" });
const entry = (testId: string) => {
  const made = testEntry(testId);
  return made.kind === "test" ? { ...made, test: { ...made.test, lot: "Körnung µ 4471" } } : made;
};
const loading = { fromPath: "x.json", bytesSha256: "a".repeat(64), by: "KO", at: "2026-11-24T10:00:00+01:00" };

const open = async (disk: ModelDisk): Promise<Store> =>
  must(await openStore(FOLDER, { now, indexRowOf, create: station, disk, pid }));

interface Target {
  /** The name of its file, temporary or not. */
  readonly file: RegExp;
  readonly path: string;
  readonly work: (store: Store) => Promise<Outcome<unknown>>;
  /** What the operator is told of the data; null where the work is done all the same and a problem is reported. */
  readonly refusal: RegExp | null;
  readonly problem?: RegExp;
}

const TARGETS: Readonly<Record<string, Target>> = {
  "the draft": {
    file: /drafts\/T-2\.json/,
    path: "/station/drafts/T-2.json",
    work: (store) => store.saveDraft(lot("T-2", 3)),
    refusal: /^the last entry is not saved yet: /,
  },
  "a new draft": {
    file: /drafts\/T-9\.json/,
    path: "/station/drafts/T-9.json",
    work: (store) => store.saveDraft(lot("T-9", 1)),
    refusal: /^the last entry is not saved yet: /,
  },
  "the day file": {
    file: /log\/2026\/11\/2026-11-24\.json/,
    path: "/station/log/2026/11/2026-11-24.json",
    work: (store) => store.record(entry("T-2")),
    refusal: /^the entry is not recorded: /,
  },
  "the file of a new month": {
    file: /log\/2026\/12\/2026-12-01\.json/,
    path: "/station/log/2026/12/2026-12-01.json",
    work: (store) => store.record(note("Körnung geprüft", NEXT_MONTH)),
    refusal: /^the entry is not recorded: /,
  },
  "the head": {
    file: /head\.json/,
    path: "/station/log/head.json",
    work: (store) => store.record(entry("T-2")),
    refusal: null,
    problem: /^log\/head\.json is behind and is written with the next entry: /,
  },
  "the index": {
    file: /index\/2026-11\.json/,
    path: "/station/index/2026-11.json",
    work: (store) => store.record(entry("T-2")),
    refusal: null,
    problem: /^index\/2026-11\.json is behind and is drawn again later: /,
  },
  "a product of the library": {
    file: /library\/products\/TH-0510\.rev3\.json/,
    path: "/station/library/products/TH-0510.rev3.json",
    work: (store) => store.addProduct(sand, loading),
    refusal: /^product TH-0510\.rev3 is not kept: .+ Load it again afterwards$/,
  },
};

/** What to do about each, as the operator reads it. */
const REMEDY: Readonly<Record<string, RegExp>> = {
  ENOSPC: /the disk is full\. Free some space and try again \(ENOSPC\)/,
  EIO: /the disk reports a fault\. Copy the station's folder to another disk now \(EIO\)/,
  EACCES: /this account has no right to it\. Have the rights of the folder put right and try again \(EACCES\)/,
  EROFS: /the disk can only be read\. Use another folder \(--data\) \(EROFS\)/,
  EFBIG: /may not grow so large .+ Have that limit lifted and try again \(EFBIG\)/,
};

/** A test recorded, another half weighed. */
async function inUse(): Promise<{ disk: CutDisk; store: Store }> {
  const disk = new CutDisk();
  const store = await open(disk);
  onTestFinished(() => store.close());
  must(await store.record(entry("T-1")));
  must(await store.saveDraft(lot("T-2", 2)));
  await store.indexRows("2026-11");
  return { disk, store };
}

const numbersOf = async (store: Store): Promise<number[]> =>
  (await Promise.all(["2026-11-24", "2026-12-01"].map((day) => store.entriesOfDay(day)))).flat().map((e) => e.number);

/** Opened as after a crash: nothing half is found, nothing is lost, nothing lies about, the chain holds. */
async function expectSound(disk: ModelDisk): Promise<Store> {
  const store = await open(disk);
  expect(store.readOnly).toBe(null);
  expect(store.problems).toEqual([]);
  expect(await verifyLog(FOLDER, disk)).toMatchObject({ ok: true });
  expect(disk.paths().filter((path) => /unreadable|\.tmp$/.test(path))).toEqual([]);
  const tests = (await store.recentRows(100)).map(({ testId }) => testId);
  expect(tests).toContain("T-1");
  const kept = store.drafts().find(({ testId }) => testId === "T-2");
  if (!tests.includes("T-2")) expect(kept?.weighings.filter(({ fullG }) => fullG !== null).length).toBeGreaterThan(1);
  expect(new Set(await numbersOf(store)).size).toBe((await numbersOf(store)).length);
  return store;
}

function expectTold(target: Target, done: Outcome<unknown>, store: Store, code: string): void {
  const remedy = REMEDY[code] ?? /never/;
  if (target.refusal === null) {
    expect(done).toMatchObject({ ok: true });
    expect(store.problems).toEqual([expect.stringMatching(target.problem ?? /never/)]);
    expect(store.problems[0]).toMatch(remedy);
  } else {
    expect(done).toMatchObject({ ok: false, reason: expect.stringMatching(target.refusal) });
    expect(done).toMatchObject({ reason: expect.stringMatching(remedy) });
  }
}

async function cutOnce(target: Target, code: string, at: (bytes: Uint8Array) => number, leftLying: boolean) {
  const { disk, store } = await inUse();
  const before = disk.textAt(target.path);
  disk.cut = { file: target.file, code, at, leftLying };
  const done = await target.work(store);
  await store.indexRows("2026-11"); // whoever looks at the list meanwhile sees what is recorded
  await expect.poll(() => disk.wasCut.length).toBeGreaterThan(0);
  expect(disk.textAt(target.path)).toBe(before); // the old one, whole
  await expect.poll(() => target.refusal !== null || store.problems.length > 0).toBe(true);
  expectTold(target, done, store, code);

  // The power goes at this moment: whatever the disk had not flushed is there or is not.
  for (const chance of [() => 0, () => 0.999]) await (await expectSound(disk.afterPowerCut(chance))).close();

  // The fault is over: the same work, and what came of it is whole.
  disk.cut = null;
  must(await target.work(store));
  must(await store.record(note("afterwards", target.path.includes("/12/") ? NEXT_MONTH : "2026-11-24T11:00:00+01:00")));
  await store.close();
  expect(disk.textAt(target.path)).not.toBe(before);
  await (await expectSound(disk)).close();
}

let tried = 0;

describe.each(Object.entries(TARGETS))("a write of %s that stops", (_, target) => {
  test.each(Object.entries(CUTS))(
    "%s leaves the old one or the new one whole, is told, and is made good",
    async (...of) => {
      const [, at] = of;
      for (const code of Object.keys(REMEDY)) await cutOnce(target, code, at, false);
      await cutOnce(target, "EIO", at, true); // a disk so broken that what was begun stays
      tried += Object.keys(REMEDY).length + 1;
    },
  );
});

test("every file was cut at every class of byte with every fault", () =>
  expect(tried).toBe(Object.keys(TARGETS).length * Object.keys(CUTS).length * (Object.keys(REMEDY).length + 1)));

describe("a write of the list of people that stops", () => {
  const who = { initials: "SB", pin: "471108" };
  const openCheap = async (disk: ModelDisk): Promise<Store> =>
    must(await openStore(FOLDER, { now, indexRowOf, create: station, disk, pid, pinCost: CHEAP }));

  test.each(Object.entries(CUTS))("%s leaves the old list whole, is told, and is made good", async (...of) => {
    const [, at] = of;
    for (const code of Object.keys(REMEDY)) {
      const disk = new CutDisk();
      const store = await openCheap(disk);
      must(await store.operators.setUp({ ...who, name: "S. Bärö" }, "audit"));
      must(await store.signOn(who));
      const before = disk.textAt("/station/operators.json");
      disk.cut = { file: /operators\.json/, code, at, leftLying: code === "EIO" };
      const done = await store.operators.setIdleMinutes(25);
      expect(done).toMatchObject({ ok: false, reason: expect.stringMatching(/^operators\.json is not changed: /) });
      expect(done).toMatchObject({ reason: expect.stringMatching(REMEDY[code] ?? /never/) });
      expect(disk.textAt("/station/operators.json")).toBe(before);

      const after = await openCheap(disk.afterPowerCut(() => 0));
      expect([after.problems, after.operators.trouble]).toEqual([[], null]);
      must(await after.signOn(who));
      await after.close();

      disk.cut = null;
      must(await store.operators.setIdleMinutes(25));
      await store.close();
      const again = await openCheap(disk);
      expect([again.operators.idleMinutes, again.problems]).toEqual([25, []]);
      expect(disk.paths().filter((path) => /unreadable|\.tmp$/.test(path))).toEqual([]);
      expect(await verifyLog(FOLDER, disk)).toMatchObject({ ok: true });
      await again.close();
    }
  });
});

describe.each(Object.entries(TARGETS))("a rename onto %s that is refused, as by a scanner on Windows,", (_, target) => {
  const refusing = (code: string, times: number) => {
    let left = times;
    return ({ call, path }: { call: string; path: string }) =>
      call === "rename" && target.file.test(path) && left-- > 0 ? fault(code) : null;
  };

  test.each(["EPERM", "EBUSY", "EACCES"])(
    "%s once, thrice or nine times, is waited out and goes unnoticed",
    async (code) => {
      for (const times of [1, 3, 9]) {
        const { disk, store } = await inUse();
        disk.interference = refusing(code, times);
        must(await target.work(store));
        await store.close();
        expect(store.problems).toEqual([]);
        disk.interference = () => null;
        await (await expectSound(disk)).close();
      }
    },
  );

  test.each(["EPERM", "EBUSY", "EACCES"])(
    "%s for ever, is told, loses nothing, and is made good when it ends",
    async (code) => {
      const { disk, store } = await inUse();
      const before = disk.textAt(target.path);
      disk.interference = refusing(code, Number.POSITIVE_INFINITY);
      const done = await target.work(store);
      await expect.poll(() => target.refusal !== null || store.problems.length > 0).toBe(true);
      const told = done.ok ? store.problems[0] : done.reason;
      expect(told).toMatch(target.refusal ?? target.problem ?? /never/);
      expect(told).toMatch(
        code === "EBUSY" ? /another program holds the file\. Try again/ : /no right to it\. Have the rights/,
      );
      expect(disk.textAt(target.path)).toBe(before);
      disk.interference = () => null;
      must(await target.work(store));
      await store.close();
      await (await expectSound(disk)).close();
    },
  );
});
