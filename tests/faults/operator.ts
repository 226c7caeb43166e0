// A process of its own that weighs and records as fast as the disk lets it, and says what has been promised to it.
// Arguments: the station's folder, a name for its tests, what it does ("all" if not named), the first day it records on.
// Each line it prints is a promise of the store.
import { writeSync } from "node:fs";
import { openStore } from "../../src/store/openStore.ts";
import type { Store } from "../../src/store/store.ts";
import { busyDraft, draft, indexRowOf, now, station, testEntry } from "../store/records.ts";

const [folder = "", name = "", doing = "all", firstDay = "2026-11-24"] = process.argv.slice(2);
const say = (promise: string): void => void writeSync(1, `${promise}\n`);
const dayAfter = (days: number): string =>
  new Date(Date.parse(`${firstDay}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);

async function weigh(store: Store, testId: string, trail = 0): Promise<void> {
  for (let weighed = 0; weighed <= 5; weighed += 1) {
    const state = { ...draft(testId, weighed), trail: busyDraft(testId, trail).trail };
    if ((await store.saveDraft(state)).ok) say(`draft ${testId} ${weighed}`);
  }
}

async function record(store: Store, testId: string, day: string): Promise<void> {
  const recorded = await store.record(testEntry(testId, `${day}T10:00:00+01:00`));
  if (recorded.ok) say(`entry ${testId} ${recorded.value.number}`);
}

/** What each of its rounds goes through, the n-th time. */
const WORK: Readonly<Record<string, (store: Store, testId: string, n: number) => Promise<void>>> = {
  /** Weighings alone, in drafts with a long trail. */
  entry: (store, testId) => weigh(store, testId, 200),
  recording: (store, testId) => record(store, testId, firstDay),
  /** A new day file each time, and a new month after every three or four. */
  rotation: (store, testId, n) => record(store, testId, dayAfter(n * 9)),
  async all(store, testId, n) {
    await weigh(store, testId);
    if (n % 4 !== 3) await record(store, testId, dayAfter(n % 3)); // else left lying: nobody came back to it
  },
};

const opened = await openStore(folder, { now, indexRowOf, create: station });
if (!opened.ok) throw new Error(opened.reason);
const store = opened.value;
say(`open ${store.readOnly ?? "for writing"}`);
for (const problem of store.problems) say(`problem ${problem}`);
const work = WORK[doing];
if (work === undefined) throw new Error(`no work is called ${doing}`);
if (store.readOnly === null) for (let n = 1; ; n += 1) await work(store, `${name}-${n}`, n);
