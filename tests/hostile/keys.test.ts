import { describe, expect, test, vi } from "vitest";
import { fillStation } from "../../src/demo/fillStation.ts";
import { DEMO_STATION } from "../../src/demo/station.ts";
import type { Draft } from "../../src/record/draft.ts";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import { openStore } from "../../src/store/openStore.ts";
import type { Store } from "../../src/store/store.ts";
import { ModelDisk } from "../faults/modelDisk.ts";
import { SEED } from "../seeded.ts";
import { must } from "../store/opened.ts";
import { CHEAP, PINS } from "../store/peopleAt.ts";
import { inputsTried, runsOf, tellsWhatWasTried } from "./fuzz.ts";
import { Walk } from "./walk.ts";

vi.setConfig({ testTimeout: 600_000 });
tellsWhatWasTried();

const STEPS = 350;
const FOLDER = "/station";

function aClock() {
  let ms = Date.UTC(2026, 10, 24, 2);
  return {
    now: () => `${new Date(ms + 3_600_000).toISOString().slice(0, 19)}+01:00`,
    goes: (seconds: number) => {
      ms += seconds * 1000;
    },
  };
}

const open = async (disk: ModelDisk, now: () => string): Promise<Store> =>
  must(await openStore(FOLDER, { now, indexRowOf, create: DEMO_STATION, disk, pinCost: CHEAP }));

async function filled(disk: ModelDisk, now: () => string): Promise<Store> {
  const store = await open(disk, now);
  const untilMs = Date.parse("2026-11-24T02:00:00Z");
  must(await fillStation(store, { tests: 12, seed: 1, untilMs, programVersion: "test" }));
  return store;
}

/** Every test of the log, recorded or ended, with its trail. */
async function trailsOnRecord(store: Store): Promise<Map<string, Draft["trail"]>> {
  const found = new Map<string, Draft["trail"]>();
  const first = Date.parse("2026-06-01T00:00:00Z");
  const lastDay = Date.parse(store.atOpening.at(-1)?.day ?? "2026-12-31") + 40 * 86_400_000;
  for (let ms = first; ms <= lastDay; ms += 86_400_000)
    for (const entry of await store.entriesOfDay(new Date(ms).toISOString().slice(0, 10)))
      if (entry.kind === "test" || entry.kind === "test ended") found.set(entry.test.testId, entry.test.trail);
  return found;
}

/** What was accepted is in a draft on disk or on record, in full. */
async function expectNothingLost(walk: Walk, store: Store): Promise<void> {
  const kept = await trailsOnRecord(store);
  for (const { testId, trail } of store.drafts()) kept.set(testId, trail);
  for (const [testId, trail] of walk.accepted())
    expect(kept.get(testId)?.slice(0, trail.length), `${testId} with what was weighed in it`).toEqual(trail);
}

async function walked(seed: number, signOn: boolean): Promise<Walk> {
  const disk = new ModelDisk();
  const clock = aClock();
  const store = await filled(disk, clock.now);
  if (signOn) {
    must(await store.operators.setUp({ initials: "SB", name: "S. Baro", pin: PINS.SB }, "audit"));
    must(await store.signOn({ initials: "SB", pin: PINS.SB }));
  }
  const walk = new Walk(store, clock, seed, signOn ? { initials: "SB", pin: PINS.SB } : null);
  await walk.ready();
  await walk.goes(runsOf(STEPS));
  await walk.leaves();
  await store.close();
  const again = await open(disk, clock.now);
  expect(again.problems).toEqual([]);
  await expectNothingLost(walk, again);
  await again.close();
  inputsTried("keys", walk.keys);
  inputsTried("frames", walk.frames);
  return walk;
}

describe("thousands of random keys, scans, resizes and moments that pass, on a filled station", () => {
  const visited = new Map<string, number>();
  test.each([
    ["where nobody signs on", 0, false],
    ["where nobody signs on, another walk", 1, false],
    ["where somebody is signed on", 2, true],
  ] as const)("%s: no crash, every frame fits, nothing that was weighed is lost", async (_, nth, signOn) => {
    const walk = await walked(SEED + nth, signOn);
    expect(walk.accepted().size).toBeGreaterThan(0);
    for (const [place, times] of walk.visited) visited.set(place, (visited.get(place) ?? 0) + times);
  });

  test("lead through nearly every place there is", () => {
    console.info(`places: ${[...visited].map(([place, times]) => `${place} ${times}`).join(", ")}`);
    for (const place of ["bench", "run", "event", "products", "signOn"]) expect([...visited.keys()]).toContain(place);
    expect(visited.size).toBeGreaterThan(11);
  });
});
