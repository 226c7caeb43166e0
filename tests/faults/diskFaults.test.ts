import { describe, expect, onTestFinished, test } from "vitest";
import type { Outcome } from "../../src/entry/outcome.ts";
import { openStore } from "../../src/store/openStore.ts";
import type { Store } from "../../src/store/store.ts";
import { verifyLog } from "../../src/store/verify.ts";
import { cared, registered, sieve, weighed } from "../store/careWorld.ts";
import { must, mustNot } from "../store/opened.ts";
import { draft, indexRowOf, note, now, product, station, testEntry } from "../store/records.ts";
import { fault, ModelDisk, type Step } from "./modelDisk.ts";

const FOLDER = "/station";

async function openOn(disk: ModelDisk): Promise<Store> {
  const store = must(await openStore(FOLDER, { now, indexRowOf, create: station, disk }));
  onTestFinished(() => store.close());
  return store;
}

/** A station in use: a test recorded, another half weighed. */
async function inUse(): Promise<{ disk: ModelDisk; store: Store }> {
  const disk = new ModelDisk();
  const store = await openOn(disk);
  must(await store.saveDraft(draft("T-1", 3)));
  must(await store.record(testEntry("T-1")));
  must(await store.saveDraft(draft("T-2", 1)));
  await store.indexRows("2026-11");
  return { disk, store };
}

const loading = { fromPath: "x.json", bytesSha256: "a".repeat(64), by: "KO", at: "2026-11-24T10:00:00+01:00" };

const WORKS: Readonly<Record<string, (store: Store) => Promise<Outcome<unknown>>>> = {
  "saving a new draft": (store) => store.saveDraft(draft("T-3", 1)),
  "saving a draft again": (store) => store.saveDraft(draft("T-2", 2)),
  "dropping a draft": (store) => store.dropDraft("T-2"),
  "recording a test": (store) => store.record(testEntry("T-2")),
  "recording a test of the next month": (store) => store.record(testEntry("T-2", "2026-12-01T10:00:00+01:00")),
  "recording with a clock set back": (store) => store.record(testEntry("T-2", "2026-10-01T10:00:00+02:00")),
  "recording many": (store) => store.recordAll([testEntry("T-2"), testEntry("T-4", "2026-11-25T10:00:00+01:00")]),
  "loading a product": (store) => store.addProduct(product, loading),
  "registering a sieve and noting care of it": async (store) => {
    const done = await store.record(registered(sieve("S-0500-1")));
    // A failed write can have arrived all the same: then the second try finds that nothing is left to do.
    if (!done.ok && !done.reason.includes("registered like this already")) return done;
    const care = { did: "cleaning", serials: ["S-0500-1"], how: "brush" } as const;
    return store.record(cared({ ...care, serials: [...care.serials] }, "2026-11-24T09:30:00+01:00"));
  },
  "recording a test of known sieves": (store) => store.record(weighed("T-2", "2026-11-24T08:31:00+01:00")),
  "drawing the index again": (store) => store.reindex(),
};

/** How many steps on disk a work takes, index and all. */
async function stepsOf(work: (store: Store) => Promise<Outcome<unknown>>): Promise<readonly Step[]> {
  const { disk, store } = await inUse();
  await store.close();
  const again = await openOn(disk);
  const from = disk.steps.length;
  must(await work(again));
  await again.close();
  return disk.steps.slice(from);
}

async function failingOnceAt(
  at: number,
  code: string,
  work: (store: Store) => Promise<Outcome<unknown>>,
): Promise<void> {
  const { disk, store: before } = await inUse();
  await before.close();
  const store = await openOn(disk);
  const from = disk.steps.length;
  disk.interference = (_, index) => (index - from === at ? fault(code) : null);
  const first = await work(store);
  if (!first.ok) {
    expect(first.reason).toMatch(new RegExp(`\\(${code}\\)`));
    must(await work(store));
  }
  const after = await store.record(note("afterwards")); // may be what the fault hits, where the work took fewer steps
  if (!after.ok) must(await store.record(note("afterwards")));
  await store.close();
  await expectSound(disk);
}

/** Nothing lost, nothing twice, nothing half, whatever came before. */
async function expectSound(disk: ModelDisk): Promise<void> {
  disk.interference = () => null;
  const store = await openOn(disk);
  expect(store.readOnly).toBe(null);
  const rows = await store.recentRows(1000);
  const tests = rows.map(({ testId }) => testId);
  expect(tests).toContain("T-1");
  expect(new Set(tests).size).toBe(tests.length);
  expect(store.drafts().filter(({ testId }) => tests.includes(testId))).toEqual([]);
  expect(await verifyLog(FOLDER, disk)).toMatchObject({ ok: true });
  expect(disk.paths().filter((path) => /unreadable|\.tmp$/.test(path))).toEqual([]);
}

describe.each(Object.entries(WORKS))("%s", (_, work) => {
  test.each(["ENOSPC", "EIO"])("survives a single %s at any of its steps", async (code) => {
    const steps = await stepsOf(work);
    expect(steps.length).toBeGreaterThan(3);
    for (let at = 0; at < steps.length; at += 1)
      await failingOnceAt(at, code, work).catch((failed) => {
        throw new Error(`${code} at step ${at} (${steps[at]?.call} ${steps[at]?.path}): ${failed}`, { cause: failed });
      });
  });

  test("is patient while something holds the file: five refusals of a rename, then it works", async () => {
    const { disk, store } = await inUse();
    let left = 5;
    disk.interference = ({ call }) => {
      if (call !== "rename" || left === 0) return null;
      left -= 1;
      return fault("EBUSY");
    };
    must(await work(store));
    await store.close();
    await expectSound(disk);
  });
});

describe("a disk that stays full", () => {
  test("refuses each save with what, where and what to do, and keeps the weighings in memory", async () => {
    const { disk, store } = await inUse();
    disk.interference = ({ call }) => (call === "write" ? fault("ENOSPC") : null);
    const reason = mustNot(await store.saveDraft(draft("T-2", 4)));
    expect(reason).toBe("the last entry is not saved yet: the disk is full. Free some space and try again (ENOSPC)");
    expect(store.drafts()).toEqual([draft("T-2", 4)]);
    expect(mustNot(await store.record(testEntry("T-2")))).toMatch(/^the entry is not recorded: the disk is full/);
    expect(disk.paths().filter((path) => path.endsWith(".tmp"))).toEqual([]);
  });

  test("leaves the last saved state whole on disk, and the next save after room was made saves everything", async () => {
    const { disk, store } = await inUse();
    const saved = disk.textAt("/station/drafts/T-2.json");
    disk.interference = ({ call }) => (call === "write" ? fault("ENOSPC") : null);
    mustNot(await store.saveDraft(draft("T-2", 3)));
    expect(disk.textAt("/station/drafts/T-2.json")).toBe(saved);
    disk.interference = () => null;
    must(await store.saveDraft(draft("T-2", 4)));
    expect(JSON.parse(disk.textAt("/station/drafts/T-2.json") ?? "")).toEqual(draft("T-2", 4));
  });

  test("a failed save does not fail the next one in the queue", async () => {
    const { disk, store } = await inUse();
    let once = true;
    disk.interference = ({ call }) => {
      if (call !== "write" || !once) return null;
      once = false;
      return fault("EIO");
    };
    const [first, second] = await Promise.all([store.saveDraft(draft("T-2", 2)), store.saveDraft(draft("T-2", 3))]);
    expect(mustNot(first)).toMatch(/EIO/);
    must(second);
    expect(JSON.parse(disk.textAt("/station/drafts/T-2.json") ?? "")).toEqual(draft("T-2", 3));
  });
});

describe("a file that is held for ever", () => {
  test.each(["EBUSY", "EPERM", "EACCES"])(
    "%s is refused in words after some patience, not in the first moment",
    async (code) => {
      const { disk, store } = await inUse();
      let asked = 0;
      disk.interference = ({ call }) => {
        if (call !== "rename") return null;
        asked += 1;
        return fault(code);
      };
      expect(mustNot(await store.saveDraft(draft("T-2", 4)))).toMatch(new RegExp(`not saved yet: .+ \\(${code}\\)$`));
      expect(asked).toBe(10);
      expect(disk.paths().filter((path) => path.endsWith(".tmp"))).toEqual([]);
    },
  );

  test("a full disk is told at once: patience would not make room", async () => {
    const { disk, store } = await inUse();
    let asked = 0;
    disk.interference = ({ call }) => {
      if (call !== "rename") return null;
      asked += 1;
      return fault("ENOSPC");
    };
    mustNot(await store.saveDraft(draft("T-2", 4)));
    expect(asked).toBe(1);
  });
});

describe("a record whose later steps fail", () => {
  const failingOn = (path: RegExp) => (step: Step) =>
    path.test(step.path) && step.call === "write" ? fault("EIO") : null;

  test("is recorded all the same; the head catches up with the next entry", async () => {
    const { disk, store } = await inUse();
    disk.interference = failingOn(/head\.json/);
    expect(must(await store.record(testEntry("T-2")))).toMatchObject({ number: 2 });
    expect(store.problems).toEqual([expect.stringMatching(/^log\/head\.json is behind .+\(EIO\)$/)]);
    disk.interference = () => null;
    expect(must(await store.record(note("next")))).toMatchObject({ number: 3 });
    expect(JSON.parse(disk.textAt("/station/log/head.json") ?? "")).toMatchObject({ number: 3 });
  });

  test("is in the lists although the index could not be written", async () => {
    const { disk, store } = await inUse();
    disk.interference = failingOn(/index/);
    must(await store.record(testEntry("T-2")));
    expect((await store.indexRows("2026-11")).map(({ testId }) => testId)).toEqual(["T-1", "T-2"]);
    await store.close();
    expect(store.problems).toEqual([expect.stringMatching(/^index\/2026-11\.json is behind/)]);
    disk.interference = () => null;
    const again = await openOn(disk);
    expect((await again.indexRows("2026-11")).map(({ testId }) => testId)).toEqual(["T-1", "T-2"]);
  });

  test("says so when the draft could not be removed; the next start removes it", async () => {
    const { disk, store } = await inUse();
    disk.interference = ({ call, path }) => (call === "remove" && path.endsWith("T-2.json") ? fault("EIO") : null);
    must(await store.record(testEntry("T-2")));
    expect(store.problems).toEqual([expect.stringMatching(/draft of test T-2 could not be removed.+\(EIO\)/)]);
    expect(mustNot(await store.saveDraft(draft("T-2", 5)))).toMatch(/T-2 is recorded/);
    await store.close();
    disk.interference = () => null;
    expect((await openOn(disk)).drafts()).toEqual([]);
  });
});

describe("a day that reached the disk although the flush failed", () => {
  const flushOfNamesFails = ({ call, path }: Step) =>
    call === "syncFolder" && path.endsWith("/11") ? fault("EIO") : null;

  test("keeps its number: the second try gives the same entry, not another", async () => {
    const { disk, store } = await inUse();
    disk.interference = flushOfNamesFails;
    mustNot(await store.record(testEntry("T-2")));
    disk.interference = () => null;
    expect(must(await store.record(testEntry("T-2")))).toMatchObject({ number: 2, day: "2026-11-24" });
    expect(await store.entriesOfDay("2026-11-24")).toHaveLength(2);
  });

  test("keeps its number even when the next entry goes to another day", async () => {
    const { disk, store } = await inUse();
    disk.interference = flushOfNamesFails;
    mustNot(await store.record(testEntry("T-2")));
    disk.interference = () => null;
    expect(must(await store.record(note("later", "2026-11-26T10:00:00+01:00")))).toMatchObject({ number: 3 });
    expect(await verifyLog(FOLDER, disk)).toMatchObject({ ok: true, entries: 3 });
    expect((await store.indexRows("2026-11")).map(({ testId }) => testId)).toEqual(["T-1", "T-2"]);
  });
});
