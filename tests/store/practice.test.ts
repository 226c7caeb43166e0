import { createHash } from "node:crypto";
import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { afterAll, beforeAll, expect, test } from "vitest";
import { DEMO_STATION } from "../../src/demo/station.ts";
import { practiceId } from "../../src/record/practice.ts";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import { openStore } from "../../src/store/openStore.ts";
import type { Store } from "../../src/store/store.ts";
import { demoPlant, Walker } from "../screens/walking.ts";
import { must, mustNot } from "./opened.ts";

const NOW = () => "2026-11-25T03:30:00+01:00";
let plant: Store;
beforeAll(async () => {
  plant = await demoPlant(await mkdtemp(join(tmpdir(), "sievewright-")));
}, 120_000);
afterAll(async () => {
  await plant.close();
  await rm(plant.folder, { recursive: true, force: true });
});

/** Every file of the station but its lock, by its SHA-256. */
async function filesOf(folder: string): Promise<Readonly<Record<string, string>>> {
  const found = await readdir(folder, { recursive: true, withFileTypes: true });
  const paths = found.filter((one) => one.isFile()).map((one) => join(one.parentPath, one.name));
  const kept = paths.filter((path) => !path.includes("lock")).toSorted();
  const sums = kept.map(async (path) => [
    path.slice(folder.length),
    createHash("sha256")
      .update(await readFile(path))
      .digest("hex"),
  ]);
  return Object.fromEntries(await Promise.all(sums));
}

const standing = () => plant.care.reading("S-0500-1");

test("a whole practice test at a station with sets of sieves changes no byte of log, index, drafts or anything else", async () => {
  const walker = new Walker(plant, () => undefined);
  await walker.comes((app) => app.recent !== null && app.products.length > 0 && app.care !== undefined);
  const before = await filesOf(plant.folder);
  const care = await standing();
  expect(Object.keys(before).filter((path) => path.startsWith("/log/")).length).toBeGreaterThan(3);
  walker.types("x");
  await walker.comes("run");
  const stage = () => (walker.app.place.name === "run" ? walker.app.place.run.draft.stage : "left");
  for (let keys = 0; keys < 12 && stage() === "set out"; keys++) {
    const was = walker.app.place;
    walker.presses("f6");
    if (walker.app.place === was || walker.app.message !== null) walker.presses("enter");
  }
  expect(stage()).toBe("weigh empty");
  for (let keys = 0; keys < 80 && stage() !== "result"; keys++) {
    walker.types("i");
    if (walker.app.place.name === "run" && walker.app.place.run.doubt) walker.presses("enter");
  }
  expect(stage()).toBe("result");
  walker.presses("enter");
  await walker.comes("sign");
  walker.presses("enter");
  walker.presses("enter");
  await walker.comes("bench");
  expect(walker.app.message).toContain("nothing of it was recorded");
  await pause(300); // whatever a key might have asked of the disk is done by then
  expect(await filesOf(plant.folder)).toEqual(before);
  expect(await standing()).toEqual(care);
  expect(plant.drafts().some(({ testId }) => testId.startsWith("practice"))).toBe(false);
});

test("a program that is killed in the middle of practice leaves nothing of it", async () => {
  const before = await filesOf(plant.folder);
  const walker = new Walker(plant, () => undefined);
  await walker.comes((app) => app.recent !== null && app.products.length > 0);
  walker.types("x");
  for (let keys = 0; keys < 12; keys++) walker.presses("enter", "f6").types("i");
  expect(walker.app.practice).toBeTruthy();
  await pause(300);
  expect(await filesOf(plant.folder)).toEqual(before);
  const again = must(await openStore(plant.folder, { now: NOW, indexRowOf, create: DEMO_STATION }));
  expect(again.drafts().map(({ testId }) => testId)).toEqual(plant.drafts().map(({ testId }) => testId));
  await again.close();
});

test("the store itself takes no practice test: not as a draft, not as a record, not as one ended, not among many", async () => {
  const [row] = await plant.recentRows(1);
  if (!row) throw new Error("no test");
  const { test: recorded, by } = must(await plant.testEntry(row));
  const before = await filesOf(plant.folder);
  const practised = { ...recorded, testId: practiceId(recorded.testId) };
  const { finishedAt: _finished, by: _by, signed: _signed, ...entered } = practised;
  const at = NOW();
  const draft = { schema: "sievewright.draft/1", stage: "result", ...entered } as const;
  const entry = { kind: "test", at, by, test: practised } as const;
  for (const refusal of [
    mustNot(await plant.saveDraft(draft)),
    mustNot(await plant.record(entry)),
    mustNot(await plant.record({ kind: "test ended", at, by, stage: "result", test: entered, reason: "spilled" })),
    mustNot(await plant.recordAll([entry])),
  ])
    expect(refusal).toContain("a practice test is never recorded");
  expect(await filesOf(plant.folder)).toEqual(before);
});
