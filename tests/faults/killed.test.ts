import { spawnSync } from "node:child_process";
import { mkdir, readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { expect, test, vi } from "vitest";
import { recordedEntry } from "../screens/stage.ts";
import { opened } from "../store/opened.ts";
import { temporaryFolder } from "../store/temporaryFolder.ts";
import { QUICK_SAND, stationFolder } from "../terminal/stationOf.ts";
import { backupTaken, productLoaded, type Round, screensAtWork, storeAtWork } from "./killRounds.ts";
import { Promises } from "./promises.ts";
import { killed, operators } from "./running.ts";

const operator = operators();
/** `npm run test:kill` asks for more, or for other dice. */
const ROUNDS = Number(process.env.KILL_ROUNDS ?? 40);
const SEED = Number(process.env.KILL_SEED ?? 20261124);
/** So many rounds go to one station; then a fresh one, so that a thousand rounds take twenty-five times as long as forty. */
const SEASON = 20;
const PROGRAM = fileURLToPath(new URL("../../dist/sievewright.mjs", import.meta.url));

vi.setConfig({ testTimeout: 120_000 + ROUNDS * 10_000 });

/** What may be under way when the plug is pulled, and on which of a season's stations. */
const KINDS: readonly { name: string; on: "desk" | "terminal"; work: (round: Round) => Promise<void> }[] = [
  { name: "entry", on: "desk", work: (round) => storeAtWork("entry", round) },
  { name: "recording", on: "desk", work: (round) => storeAtWork("recording", round) },
  { name: "rotation", on: "desk", work: (round) => storeAtWork("rotation", round) },
  { name: "product add", on: "desk", work: productLoaded },
  { name: "backup", on: "desk", work: backupTaken },
  { name: "screens", on: "terminal", work: screensAtWork },
];

interface Season {
  readonly desk: string;
  readonly terminal: string;
  readonly promises: { readonly desk: Promises; readonly terminal: Promises };
}

async function newSeason(): Promise<Season> {
  const desk = join(await temporaryFolder(), "desk");
  await mkdir(desk);
  await (await opened(desk)).close();
  const terminal = await stationFolder([QUICK_SAND], [recordedEntry(1)]);
  return { desk, terminal, promises: { desk: new Promises(), terminal: new Promises() } };
}

/** The built program itself, started on what the kill has left. */
function verified(folder: string): { ok: boolean; entries: number; tookMs: number } {
  const began = performance.now();
  const { status, stdout, stderr } = spawnSync(process.execPath, [PROGRAM, "verify", "--json", "--data", folder], {
    encoding: "utf8",
  });
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  return { ...JSON.parse(stdout), tookMs: performance.now() - began };
}

interface Tally {
  readonly rounds: Map<string, number>;
  entriesVerified: number;
  /** Files that a kill left half written, which the next opening clears: the sign that it met a write. */
  halfWritten: number;
  commandsEndedFirst: number;
}

const halfWrittenIn = async (folder: string): Promise<number> =>
  (await readdir(folder, { recursive: true })).filter((name) => name.endsWith(".tmp")).length;

/** One kill, and what holds after it. Answers with how long a command takes at present. */
async function killOnce(season: Season, number: number, dice: Round["dice"], paceMs: number, tally: Tally) {
  const kind = KINDS[(number - 1) % KINDS.length];
  if (kind === undefined) throw new Error("no kind of round");
  const folder = season[kind.on];
  const promises = season.promises[kind.on];
  const endedFirst = (): void => {
    tally.commandsEndedFirst += 1;
  };
  try {
    await kind.work({ number, folder, promises, dice, operator, paceMs, endedFirst });
    tally.halfWritten += await halfWrittenIn(folder);
    const chain = verified(folder);
    expect(chain.ok).toBe(true);
    const store = await opened(folder);
    await promises.expectKept(store);
    await store.close();
    tally.entriesVerified += chain.entries;
    tally.rounds.set(kind.name, (tally.rounds.get(kind.name) ?? 0) + 1);
    return chain.tookMs;
  } catch (failed) {
    throw new Error(`round ${number} (${kind.name}) of seed ${SEED}: ${failed}`, { cause: failed });
  }
}

const told = ({ rounds, entriesVerified, halfWritten, commandsEndedFirst }: Tally, seconds: number): string =>
  [
    `killed ${ROUNDS} times, seed ${SEED}, in ${seconds} s: ${[...rounds].map(([name, n]) => `${n} ${name}`).join(", ")}`,
    `nothing promised was lost, every chain held: ${entriesVerified} entries verified`,
    `${halfWritten} half-written temporary files cleared, ${commandsEndedFirst} commands had ended before their kill\n`,
  ].join("; ");

test(`killed at any moment, ${ROUNDS} times over, it loses nothing that it promised (seed ${SEED})`, async () => {
  const generator = xoroshiro128plus(SEED);
  const dice = (below: number): number => (generator.next() >>> 0) % below;
  const tally: Tally = { rounds: new Map(), entriesVerified: 0, halfWritten: 0, commandsEndedFirst: 0 };
  const began = performance.now();
  let season = await newSeason();
  let paceMs = verified(season.desk).tookMs;
  for (let number = 1; number <= ROUNDS; number += 1) {
    paceMs = await killOnce(season, number, dice, paceMs, tally);
    if (number % SEASON === 0) season = await newSeason();
    if (number % 100 === 0) process.stdout.write(`${number} kills, nothing lost\n`);
  }
  process.stdout.write(told(tally, Math.round((performance.now() - began) / 1000)));
  expect(tally.entriesVerified).toBeGreaterThan(ROUNDS);
});

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
