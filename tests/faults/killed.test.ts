import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { expect, test } from "vitest";
import { verifyLog } from "../../src/store/verify.ts";
import { opened } from "../store/opened.ts";
import { temporaryFolder } from "../store/temporaryFolder.ts";
import { killed, operators } from "./running.ts";

const operator = operators();
const ROUNDS = 25;
const SEED = 20261124;

/** What was promised over all rounds: entries for good, of drafts the last state. */
class Promises {
  readonly entries = new Map<string, number>();
  readonly drafts = new Map<string, number>();

  take(lines: readonly string[]): void {
    for (const line of lines) {
      const [what, testId = "", figure = ""] = line.split(" ");
      if (what === "draft") this.drafts.set(testId, Number(figure));
      if (what === "entry") {
        this.entries.set(testId, Number(figure));
        this.drafts.delete(testId);
      }
    }
  }
}

test(`a program killed at any moment, ${ROUNDS} times over, loses nothing that it promised (seed ${SEED})`, async () => {
  const folder = await temporaryFolder();
  const dice = xoroshiro128plus(SEED);
  const promises = new Promises();
  for (let round = 1; round <= ROUNDS; round += 1) {
    const run = operator(folder, `R${round}`);
    await run.promised(round % 3 === 0 ? "open" : "entry");
    await pause((dice.next() >>> 0) % 60);
    const lines = await killed(run);
    expect(lines[0]).toBe("open for writing"); // the lock of the one killed before does not stand in the way
    expect(lines.filter((line) => line.startsWith("problem"))).toEqual([]);
    promises.take(lines);
  }
  expect(promises.entries.size).toBeGreaterThan(ROUNDS / 2);

  const store = await opened(folder);
  expect(store.readOnly).toBe(null);
  expect(store.problems).toEqual([]);
  const rows = await store.recentRows(Number.POSITIVE_INFINITY);
  const numberOf = new Map(rows.map((row) => [row.testId, row.number]));
  expect(numberOf.size).toBe(rows.length);
  for (const [testId, number] of promises.entries) expect([testId, numberOf.get(testId)]).toEqual([testId, number]);
  const weighedIn = new Map(
    store.drafts().map((one) => [one.testId, one.weighings.filter(({ fullG }) => fullG !== null).length]),
  );
  for (const [testId, weighed] of promises.drafts)
    if (!numberOf.has(testId)) expect(weighedIn.get(testId), testId).toBeGreaterThanOrEqual(weighed);
  for (const testId of weighedIn.keys()) expect(numberOf.has(testId), testId).toBe(false);
  expect(await verifyLog(folder)).toMatchObject({ ok: true, entries: rows.length });
}, 120_000);

test("no reader ever finds half a file while a program writes", async () => {
  const folder = await temporaryFolder();
  const run = operator(folder, "W");
  await run.promised("open");
  let read = 0;
  for (const until = Date.now() + 1500; Date.now() < until; ) {
    const names = (await readdir(join(folder, "drafts"))).filter((name) => name.endsWith(".json"));
    for (const path of [...names.map((name) => join(folder, "drafts", name)), join(folder, "log", "head.json")]) {
      const text = await readFile(path, "utf8").catch(() => null); // gone between listing and reading
      if (text === null) continue;
      expect(JSON.parse(text)).toHaveProperty("schema");
      read += 1;
    }
  }
  await killed(run);
  expect(read).toBeGreaterThan(100);
});
