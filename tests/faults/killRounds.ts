// One round each: something of the program works on the station, is killed at a moment that the dice name, and says what it
// had been promised by then.
import { spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { existsSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { expect } from "vitest";
import { FULL_G } from "../run/hands.ts";
import { must } from "../store/opened.ts";
import { product } from "../store/records.ts";
import type { Operator } from "../terminal/operator.ts";
import { opened } from "../terminal/stationOf.ts";
import { fullOnDisk, halfWeighed, resumed, signs, typedG, weighsFull } from "./inWork.ts";
import type { Promises } from "./promises.ts";
import { killed, type Run } from "./running.ts";

const PROGRAM = fileURLToPath(new URL("../../dist/sievewright.mjs", import.meta.url));

export interface Round {
  readonly number: number;
  readonly folder: string;
  readonly promises: Promises;
  /** A whole number from 0 to below this, by the dice. */
  readonly dice: (below: number) => number;
  readonly operator: (folder: string, name: string, ...doing: readonly string[]) => Run;
  /** How long a command takes on this computer at present. */
  readonly paceMs: number;
  /** Told when a command had ended before its plug was pulled. */
  readonly endedFirst: () => void;
}

/** The day on which a round records: weeks after the rounds before it, so that time goes forward. */
const dayOf = (round: number): string =>
  new Date(Date.UTC(2026, 10, 24) + round * 21 * 86_400_000).toISOString().slice(0, 10);

/** The store, bundled as in the program, driven as fast as the disk goes. */
export async function storeAtWork(doing: "entry" | "recording" | "rotation", round: Round): Promise<void> {
  const run = round.operator(round.folder, `R${round.number}`, doing, dayOf(round.number));
  await run.promised(round.dice(3) === 0 ? "open" : doing === "entry" ? "draft" : "entry");
  await pause(round.dice(60));
  const lines = await killed(run);
  expect(lines[0]).toBe("open for writing"); // the lock of the one killed before does not stand in the way
  expect(lines.filter((line) => line.startsWith("problem"))).toEqual([]);
  round.promises.take(lines);
}

/** A command of the built program, killed somewhere on its way; answers with its exit code, or null when it was killed first. */
async function commandKilled(args: readonly string[], round: Round): Promise<number | null> {
  const child = spawn(process.execPath, [PROGRAM, ...args], { stdio: "ignore" });
  const ended = once(child, "close");
  await Promise.race([pause(round.paceMs * (0.5 + round.dice(100) / 100)), ended]);
  child.kill("SIGKILL");
  const [code] = await ended;
  if (code !== null) round.endedFirst();
  return code;
}

/** `sievewright product add` of a new revision: what it reported as loaded is in the library from then on. */
export async function productLoaded(round: Round): Promise<void> {
  const file = join(round.folder, "..", `${round.number}.json`);
  const revision = round.number + 10;
  writeFileSync(file, JSON.stringify({ ...product, revision }));
  const code = await commandKilled(["product", "add", file, "--by", "KO", "--data", round.folder], round);
  const store = await opened(round.folder);
  const there = (await store.products()).revisions(product.code).some((one) => one.revision === revision);
  await store.close();
  if (code !== null) expect([code, there]).toEqual([0, true]);
}

const run = (...args: readonly string[]) => spawnSync(process.execPath, [PROGRAM, ...args], { encoding: "utf8" });

/** `sievewright backup`, into an archive or a folder: a copy that has its name is whole, and the station is as it was. */
export async function backupTaken(round: Round): Promise<void> {
  const to = join(round.folder, "..", `copy-${round.number}${round.dice(2) === 0 ? ".tgz" : ""}`);
  const code = await commandKilled(["backup", to, "--data", round.folder], round);
  if (code !== null) expect([code, existsSync(to)]).toEqual([0, true]);
  if (!existsSync(to)) return;
  const back = join(round.folder, "..", `back-${round.number}`);
  expect(run("restore", to, "--data", back)).toMatchObject({ status: 0, stderr: "" });
  expect(run("verify", "--data", back)).toMatchObject({ status: 0, stderr: "" });
}

/** The whole program in a terminal: the last weighings of a test, its signature, its record. */
export async function screensAtWork(round: Round): Promise<void> {
  if (fullOnDisk(round.folder).length === 0) await setOut(round);
  const before = fullOnDisk(round.folder).filter((grams) => grams !== null).length;
  const recordedBefore = await countOfTests(round.folder);
  const op = await resumed(round.folder, {}, before === FULL_G.length ? "TEST VALID" : undefined);
  const acknowledged = await worksUntilKilled(op, before, round.dice);
  await op.exit();
  const tests = await countOfTests(round.folder);
  const there = fullOnDisk(round.folder).filter((grams) => grams !== null).length;
  if (tests > recordedBefore) return expect([tests, there]).toEqual([recordedBefore + 1, 0]);
  expect(acknowledged.recorded).toBe(false);
  expect([acknowledged.weighed, acknowledged.weighed + 1]).toContain(there); // at most the one being typed is gone
}

async function setOut({ folder, number, dice }: Round): Promise<void> {
  const store = await opened(folder);
  must(await store.saveDraft(halfWeighed(3 + dice(3), `S${number}`)));
  await store.close();
}

async function countOfTests(folder: string): Promise<number> {
  const store = await opened(folder);
  const rows = await store.recentRows(Number.POSITIVE_INFINITY);
  await store.close();
  return rows.length;
}

/** Goes on with the test to a step that the dice name, and pulls the plug right after its last key. */
async function worksUntilKilled(op: Operator, before: number, dice: Round["dice"]) {
  const last = FULL_G.length;
  const stopAt = before + 1 + dice(last - before + 2); // beyond the last row: the signature is on its way, or has come
  let weighed = before;
  for (; weighed < Math.min(stopAt - 1, last); weighed += 1) {
    if (weighed < last - 1) await weighsFull(op, weighed, weighed + 1);
    else {
      await op.scans(typedG(FULL_G[weighed] ?? 0));
      await op.sees("TEST VALID");
    }
  }
  let recorded = false;
  if (stopAt > last) {
    await signs(op);
    await op.presses("enter");
    if (stopAt > last + 1) {
      await op.sees("recorded as no.");
      recorded = true;
    }
  } else await op.scans(typedG(FULL_G[weighed] ?? 0));
  await pause(dice(30));
  op.kill("SIGKILL");
  return { weighed, recorded };
}
