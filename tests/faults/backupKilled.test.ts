import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync } from "node:fs";
import { readdir, rm } from "node:fs/promises";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { expect, onTestFinished, test } from "vitest";
import { builtRun } from "../commands/realProcess.ts";
import { temporaryFolder } from "../store/temporaryFolder.ts";

const PROGRAM = fileURLToPath(new URL("../../dist/sievewright.mjs", import.meta.url));
const SEED = 20261125;
const ROUNDS = 9;

/** The built program, started and not waited for. */
function started(...args: string[]): ChildProcess {
  const child = spawn(process.execPath, [PROGRAM, ...args], {
    stdio: "ignore",
    env: { PATH: process.env.PATH, USER: "KO" },
  });
  onTestFinished(() => void child.kill("SIGKILL"));
  return child;
}

/** A station of the invented plant, and how long the built program takes for a command on it. */
async function filled(tests: number) {
  const place = await temporaryFolder();
  const data = join(place, "station");
  expect(builtRun(["demo", "--data", data, "--fill", String(tests)]).status).toBe(0);
  const timed = (...args: string[]): number => {
    const from = performance.now();
    expect(builtRun([...args, "--data", data]).status).toBe(0);
    return performance.now() - from;
  };
  return { place, data, timed };
}

/** Kills a child after some ms unless it has ended before; whether it was killed. */
async function killedAfter(child: ChildProcess, ms: number): Promise<boolean> {
  const ended = once(child, "close");
  await Promise.race([pause(ms), ended]);
  child.kill("SIGKILL");
  const [, signal] = await ended;
  return signal === "SIGKILL";
}

const entriesOf = (data: string): number => {
  const { status, stdout } = builtRun(["verify", "--json", "--data", data]);
  expect([status, JSON.parse(stdout).ok]).toEqual([0, true]);
  return JSON.parse(stdout).entries;
};

/** What people put on record, entry by entry; copies, restores and what the program finds of itself come on top of it. */
function recordedIn(data: string): readonly string[] {
  const { status, stdout } = builtRun(["log", "--json", "--data", data]);
  expect(status).toBe(0);
  const entries: readonly { kind: string; at: string }[] = stdout
    .trim()
    .split("\n")
    .map((row) => JSON.parse(row));
  const ofTheProgram = ["finding", "backup", "restored"];
  return entries.filter(({ kind }) => !ofTheProgram.includes(kind)).map(({ kind, at }) => `${kind} ${at}`);
}

test(`a backup killed at any moment, ${ROUNDS} times over, is whole under its name or not there (seed ${SEED})`, async () => {
  const { place, data, timed } = await filled(250);
  const usualMs = timed("backup", join(place, "first.tgz"));
  const dice = xoroshiro128plus(SEED);
  let [killed, whole] = [0, 0];
  for (let round = 0; round < ROUNDS; round += 1) {
    const target = join(place, round % 2 === 0 ? `copy-${round}.tgz` : `copy-${round}`);
    const waitMs = usualMs * (0.3 + ((dice.next() >>> 0) % 1000) / 1000);
    if (await killedAfter(started("backup", target, "--data", data), waitMs)) killed += 1;
    if (!existsSync(target)) continue;
    whole += 1;
    const again = join(place, "again");
    expect(builtRun(["restore", target, "--data", again]).stderr).toBe("");
    expect(entriesOf(again)).toBeGreaterThan(250);
    await rm(again, { recursive: true });
  }
  expect(killed).toBeGreaterThan(0);
  expect(whole + killed).toBeGreaterThanOrEqual(ROUNDS);
  expect(entriesOf(data)).toBeGreaterThan(250);
}, 300_000);

test(`a restore killed at any moment, ${ROUNDS} times over, leaves the old station or the new one, whole (seed ${SEED})`, async () => {
  const { place, data } = await filled(120);
  const copy = join(place, "copy.tgz");
  expect(builtRun(["backup", copy, "--data", data]).status).toBe(0);
  const before = recordedIn(data);
  expect(before.length).toBeGreaterThan(120);
  const dice = xoroshiro128plus(SEED);
  const args = ["restore", copy, "--replace", "--despite-newer", "--data", data];
  const from = performance.now();
  expect(builtRun(args).status).toBe(0);
  const usualMs = performance.now() - from;
  let killed = 0;
  for (let round = 0; round < ROUNDS; round += 1) {
    const waitMs = usualMs * (0.4 + ((dice.next() >>> 0) % 700) / 1000);
    if (await killedAfter(started(...args), waitMs)) killed += 1;
    entriesOf(data); // the chain holds, whichever station stands there
    expect(recordedIn(data)).toEqual(before);
  }
  expect(killed).toBeGreaterThan(0);
  expect((await readdir(place)).filter((name) => name.endsWith("restoring.json"))).toEqual([]);
}, 300_000);
