// What an accepted weighing costs until it is on disk, against a bare flushed write of the same bytes in the same run; and for
// how long the program is held up by it, when the next key would have to wait.
import { closeSync, fsyncSync, openSync, writeFileSync } from "node:fs";
import { mkdtemp, open, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { against, spread, within } from "./figures.mjs";

const ROUNDS = 300;
const WARM_UP = 30;
const GOAL = 2;
/** A frame: a save that holds the program up for less is not felt by whoever types on. */
const FRAME_MS = 16;

async function storeRoom(folder) {
  const outfile = join(folder, "store.mjs");
  await build({
    stdin: {
      contents: `export { openStore } from "./src/store/openStore.ts"; export { indexRowOf } from "./src/store/indexRowOf.ts"; export * as world from "./tests/store/records.ts";`,
      resolveDir: new URL("../../", import.meta.url).pathname,
    },
    bundle: true,
    platform: "node",
    format: "esm",
    outfile,
    banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
    logLevel: "error",
  });
  return import(pathToFileURL(outfile).href);
}

async function bare(path, text) {
  const file = await open(path, "w", 0o600);
  await file.writeFile(text);
  await file.sync();
  await file.close();
}

function bareBlocking(path, text) {
  const file = openSync(path, "w", 0o600);
  writeFileSync(file, text);
  fsyncSync(file);
  closeSync(file);
}

/** How long work takes, and the longest that anything else would have had to wait for its turn meanwhile. */
async function timed(work) {
  let heldMs = 0;
  let going = true;
  let turn = performance.now();
  const watch = () => {
    const now = performance.now();
    heldMs = Math.max(heldMs, now - turn);
    turn = now;
    if (going) setImmediate(watch);
  };
  setImmediate(watch);
  const from = performance.now();
  const outcome = await work();
  const tookMs = performance.now() - from;
  going = false;
  if (outcome?.ok === false) throw new Error(outcome.reason);
  return { tookMs, heldMs };
}

/** Everything in turns, each round in another order, so that whatever else the machine does falls on all alike. */
async function inTurns(works, draftOf) {
  const found = works.map(() => []);
  for (let round = -WARM_UP; round < ROUNDS; round++) {
    const draft = draftOf(round);
    for (let i = 0; i < works.length; i++) {
      const at = (i + round + WARM_UP) % works.length;
      const timing = await timed(() => works[at](draft, `${JSON.stringify(draft, null, 2)}\n`));
      if (round >= 0) found[at].push(timing);
    }
  }
  return found;
}

export async function benchSave(stations) {
  const folder = await mkdtemp(join(process.env.BENCH_FOLDER ?? tmpdir(), "sievewright-bench-"));
  const { openStore, indexRowOf, world } = await storeRoom(folder);
  const opened = await Promise.all(stations.map(({ folder: at }) => openStore(at, { now: world.now, indexRowOf })));
  const stores = opened.map((outcome) => {
    if (!outcome.ok) throw new Error(outcome.reason);
    return outcome.value;
  });
  const works = [
    (_, text) => bare(join(folder, "bare.json"), text),
    async (_, text) => bareBlocking(join(folder, "blocking.json"), text),
    ...stores.map((store) => (draft) => store.saveDraft(draft)),
  ];
  const found = await inTurns(works, (round) => world.busyDraft("B-1", (round + 40) % 40));
  const took = found.map((timings) => spread(timings.map(({ tookMs }) => tookMs)));
  const held = found.map((timings) => spread(timings.map(({ heldMs }) => heldMs)));
  for (const [i, { tests }] of stations.entries()) {
    const { median, p99 } = took[i + 2];
    against(
      `accepted weighing to durable on disk, ${tests} tests`,
      median,
      took[0].median,
      "bare fsync'ed write",
      GOAL,
    );
    against("  the same against a write that blocks all else", median, took[1].median, "blocking write");
    against("  p99", p99, took[0].p99, "p99 of the bare write");
    within("  meanwhile the next key waits for its turn at most", held[i + 2].median, FRAME_MS);
    against("  p99 of that wait", held[i + 2].p99, held[0].p99, "p99 during a bare write that blocks nothing");
  }
  for (const store of stores) {
    await store.dropDraft("B-1");
    await store.close();
  }
  await rm(folder, { recursive: true, force: true });
}
