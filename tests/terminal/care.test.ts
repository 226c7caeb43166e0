import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, onTestFinished, test, vi } from "vitest";
import { blindedPct } from "../../src/care/blinded.ts";
import { demoProducts, demoPrograms } from "../../src/demo/library.ts";
import { DEMO_STATION } from "../../src/demo/station.ts";
import type { NewEntry } from "../../src/record/logEntry.ts";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import { openStore } from "../../src/store/openStore.ts";
import type { Store } from "../../src/store/store.ts";
import { BLINDING, type CareSeason, seasonRegister, seasonTests } from "../store/careSeason.ts";
import { must } from "../store/opened.ts";
import { type Operator, operatorsLeave, startOperator } from "./operator.ts";

vi.setConfig({ testTimeout: 90_000 });
afterEach(operatorsLeave);

/** Twenty tests with a clean sieve, then thirty in each of which 0.02 g more stays in its mesh. */
const QUIET = 20;
const BLINDS = 30;
const G_PER_TEST = 0.02;
const SEASON: CareSeason = {
  tests: QUIET + BLINDS,
  untilMs: Date.now() - 3_600_000,
  seed: 7,
  caughtG: (test) => Math.max(0, test - QUIET) * G_PER_TEST,
};

async function demoStation(): Promise<{ folder: string; store: Store }> {
  const folder = mkdtempSync(join(tmpdir(), "sievewright-care-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const now = () => new Date(SEASON.untilMs).toISOString().replace("Z", "+00:00");
  const opened = () => openStore(folder, { now, indexRowOf, create: DEMO_STATION });
  const store = must(await opened());
  const loading = { fromPath: "test", bytesSha256: "0".repeat(64), by: "SB", at: now() };
  for (const program of demoPrograms()) must(await store.addProgram(program, loading));
  for (const product of demoProducts()) must(await store.addProduct(product, loading));
  must(await store.recordAll([...seasonRegister(SEASON)]));
  return { folder, store };
}

/** Records tests one by one until the blinding sieve is told; how many of its thirty that took, and what nobody should say. */
async function untilTold(store: Store, entries: readonly NewEntry[]) {
  const wrong: string[] = [];
  for (const [i, entry] of entries.entries()) {
    must(await store.record(entry));
    const { sieves } = await store.care.conditions(entry.at.slice(0, 10));
    const told = sieves.filter(({ tare }) => tare?.advice != null);
    wrong.push(...told.filter(({ serial }) => serial !== BLINDING.serial).map(({ serial }) => serial));
    const own = told.find(({ serial }) => serial === BLINDING.serial);
    if (own !== undefined) return { after: i + 1 - QUIET, offG: own.tare?.offG ?? 0, wrong };
  }
  return { after: Number.POSITIVE_INFINITY, offG: 0, wrong };
}

/** What a demo sieve weighs when it is clean; the balance adds nothing here. */
const cleanG = (apertureUm: number): number => 350 + ((apertureUm * 7919) % 9973) / 100;

/** Sets out a test with what stands in each field, and weighs empty down to the sieve that blinds. */
async function weighsEmpty(operator: Operator, caughtG: number): Promise<void> {
  await operator.presses("n");
  await operator.sees("product");
  await operator.types("TH-0510");
  await operator.presses("enter");
  for (const field of ["lot", "line", "sampling point"]) {
    await operator.sees(field);
    await operator.presses("enter");
  }
  await operator.sees("charge");
  await operator.scans("300.20");
  await operator.sees("weigh empty 0/6");
  for (const um of [1400, 1000, 710]) {
    await operator.scans(cleanG(um).toFixed(2));
    await operator.sees(cleanG(um).toFixed(2));
  }
  await operator.scans((cleanG(BLINDING.apertureUm) + caughtG).toFixed(2));
}

async function leaves(operator: Operator): Promise<void> {
  await operator.presses("ctrl+c");
  expect(await operator.exit()).toBe(0);
}

describe("a sieve that slowly blinds over thirty demo tests, in a real terminal", () => {
  test("nothing is said at first; then bench, list and page tell it in time, and so does the balance", async () => {
    const { folder, store } = await demoStation();
    const entries = [...seasonTests(SEASON)];
    must(await store.recordAll(entries.slice(0, QUIET)));
    await store.close();

    const before = await startOperator({ args: ["--data", folder] });
    await before.sees("TH-0510");
    expect(before.screen().join("\n")).not.toContain(BLINDING.serial);
    await leaves(before);

    const again = must(
      await openStore(folder, { now: () => entries.at(-1)?.at ?? "", indexRowOf, create: DEMO_STATION }),
    );
    const { after, offG, wrong } = await untilTold(again, entries.slice(QUIET));
    await again.close();
    expect(wrong).toEqual([]);
    expect(after).toBeLessThanOrEqual(10);
    const share = blindedPct(offG, BLINDING.apertureUm, 200, 2650);
    expect(share.determinable && share.value).toBeLessThan(3);

    const operator = await startOperator({ args: ["--data", folder] });
    await operator.sees(/care ! +S-0500-1 \(500 um\): 0\.\d\d g of grains caught/);
    await operator.presses("s");
    await operator.sees(/S-0500-1 +500 um .*\+0\.\d\d !/);
    await operator.types("0500-1");
    await operator.presses("enter");
    await operator.sees("grains caught in the mesh");
    await operator.sees(/clean it by brush/);
    await operator.presses("escape", "escape", "escape");
    await operator.sees("new test");
    await weighsEmpty(operator, offG + G_PER_TEST);
    await operator.sees(/500 um sieve.*\(S-0500-1\) weighs 0\.\d\d g more than when clean/);
    await operator.sees("Enter again accepts it");
    await leaves(operator);
  });
});
