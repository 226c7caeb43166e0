import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { describe, expect, test } from "vitest";
import type { LogEntry } from "../../src/record/logEntry.ts";
import { openStore } from "../../src/store/openStore.ts";
import type { Store } from "../../src/store/store.ts";
import { verifyLog } from "../../src/store/verify.ts";
import { must } from "../store/opened.ts";
import { draft, indexRowOf, note, now, product, station, testEntry } from "../store/records.ts";
import { deadProcess } from "./deadProcess.ts";
import { ModelDisk } from "./modelDisk.ts";

const FOLDER = "/station";
const pid = deadProcess(); // whoever opens next finds that the process is gone
const open = (disk: ModelDisk) => openStore(FOLDER, { now, indexRowOf, create: station, disk, pid });

/** What the store said is safe. */
interface Promised {
  /** By test: how many weighings. */
  readonly drafts: Map<string, number>;
  readonly recorded: string[];
  products: number;
}

/** A shift in small: what an operator does, and what was promised until the power went. */
async function shift(store: Store, promised: Promised): Promise<void> {
  const keep = async (testId: string, weighed: number) => {
    if ((await store.saveDraft(draft(testId, weighed))).ok) promised.drafts.set(testId, weighed);
  };
  const record = async (testId: string, at?: string) => {
    if (!(await store.record(testEntry(testId, at))).ok) return;
    promised.recorded.push(testId);
    promised.drafts.delete(testId);
  };
  await keep("T-1", 0);
  await keep("T-1", 1);
  await keep("T-2", 1);
  await keep("T-1", 2);
  await record("T-1");
  await store.record(note("sieve S-0710-2 back from inspection"));
  await keep("T-2", 2);
  const loading = { fromPath: "x.json", bytesSha256: "a".repeat(64), by: "KO", at: "2026-11-24T10:00:00+01:00" };
  if ((await store.addProduct(product, loading)).ok) promised.products = 1;
  await record("T-2", "2026-11-25T07:00:00+01:00"); // the next production day
  await keep("T-3", 1);
  promised.drafts.delete("T-3"); // dropping it may succeed or not
  await store.dropDraft("T-3");
  await record("T-4", "2026-12-01T07:00:00+01:00"); // the next month
  await record("T-5", "2026-11-24T07:00:00+01:00"); // the clock was set back
  await record("T-6", "2026-12-01T08:00:00+01:00");
}

interface Cut {
  readonly step: string;
  readonly disk: ModelDisk;
  readonly promised: Promised;
}

/** One shift, and for the moment before each of its steps the disk that a power cut would have left. */
async function cutsOfOneShift(chance: () => number): Promise<Cut[]> {
  const cuts: Cut[] = [];
  const promised: Promised = { drafts: new Map(), recorded: [], products: 0 };
  const disk = new ModelDisk();
  disk.interference = ({ call, path }, index) => {
    const step = `step ${index} (${call} ${path})`;
    if (call !== "read" && call !== "list")
      cuts.push({ step, disk: disk.afterPowerCut(chance), promised: structuredClone(promised) });
    return null;
  };
  const store = must(await open(disk));
  await shift(store, promised);
  await store.close();
  return cuts;
}

async function expectKept(store: Store, disk: ModelDisk, promised: Promised): Promise<void> {
  expect(store.readOnly).toBe(null);
  expect(store.problems).toEqual([]);
  const rows = await store.recentRows(100);
  const recorded = rows.map((row) => row.testId);
  expect(new Set(recorded).size).toBe(recorded.length);
  for (const testId of promised.recorded) expect(recorded).toContain(testId);
  for (const row of rows) expect((await store.testEntry(row)).ok).toBe(true);
  for (const [testId, weighed] of promised.drafts) {
    const kept = store.drafts().find((one) => one.testId === testId);
    if (kept === undefined) expect(recorded).toContain(testId);
    else expect(kept.weighings.filter(({ fullG }) => fullG !== null).length).toBeGreaterThanOrEqual(weighed);
  }
  for (const one of store.drafts()) expect(recorded).not.toContain(one.testId);
  const loaded = (await store.products()).revisions(product.code).length;
  expect(loaded).toBeGreaterThanOrEqual(promised.products);
  if (loaded > 0) expect((await allEntries(store)).map(({ kind }) => kind)).toContain("product loaded");
  const verified = await verifyLog(FOLDER, disk);
  expect(verified).toMatchObject({ ok: true });
  expect(disk.paths().filter((path) => path.endsWith(".tmp"))).toEqual([]);
}

async function allEntries(store: Store): Promise<LogEntry[]> {
  const days = ["2026-11-24", "2026-11-25", "2026-12-01"];
  return (await Promise.all(days.map((day) => store.entriesOfDay(day)))).flat();
}

async function expectWorkGoesOn(cut: Cut): Promise<void> {
  const store = must(await open(cut.disk));
  try {
    await expectKept(store, cut.disk, cut.promised);
    must(await store.record(testEntry("T-99", "2026-12-02T08:00:00+01:00")));
    expect(await verifyLog(FOLDER, cut.disk)).toMatchObject({ ok: true });
  } finally {
    await store.close();
  }
}

describe("whenever the power goes", () => {
  test.each([1, 2, 3])("all that was promised is there, and work goes on (chance %i)", async (seed) => {
    const dice = xoroshiro128plus(seed);
    const cuts = await cutsOfOneShift(() => (dice.next() >>> 0) / 2 ** 32);
    expect(cuts.length).toBeGreaterThan(150);
    for (const cut of cuts)
      await expectWorkGoesOn(cut).catch((failed) => {
        throw new Error(`power cut before ${cut.step}, seed ${seed}: ${failed}`, { cause: failed });
      });
  });
});
