// What saving costs: an accepted weighing against a bare flushed write of the same bytes in the same run, then the same
// and a whole record on an empty station and on one of many years. Usage: node tests/bench/save.mjs [rounds] [tests on file]
import { closeSync, fsyncSync, openSync, writeFileSync } from "node:fs";
import { mkdtemp, open, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";

const rounds = Number(process.argv[2] ?? 300);
const onFile = Number(process.argv[3] ?? 20_000);
const goal = 2;

const folder = await mkdtemp(join(process.env.BENCH_FOLDER ?? tmpdir(), "sievewright-bench-"));
const root = new URL("../../", import.meta.url);
await build({
  stdin: {
    contents: `export { openStore } from "./src/store/openStore.ts"; export { indexRowOf } from "./src/store/indexRowOf.ts"; export * as world from "./tests/store/records.ts";`,
    resolveDir: root.pathname,
  },
  bundle: true,
  platform: "node",
  format: "esm",
  outfile: join(folder, "store.mjs"),
  banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
});
const { openStore, indexRowOf, world } = await import(pathToFileURL(join(folder, "store.mjs")).href);

const median = (times) => times.toSorted((a, b) => a - b)[times.length >> 1];
const p95 = (times) => times.toSorted((a, b) => a - b)[Math.floor(times.length * 0.95)];
const shown = (times) => `median ${median(times).toFixed(3)} ms, p95 ${p95(times).toFixed(3)} ms`;
const timed = async (times, step) => {
  const from = performance.now();
  const outcome = await step();
  times.push(performance.now() - from);
  if (outcome && outcome.ok === false) throw new Error(outcome.reason);
};

async function bare(text) {
  const file = await open(join(folder, "bare.json"), "w", 0o600);
  await file.writeFile(text);
  await file.sync();
  await file.close();
}

function bareBlocking(text) {
  const file = openSync(join(folder, "bare-blocking.json"), "w", 0o600);
  writeFileSync(file, text);
  fsyncSync(file);
  closeSync(file);
}

async function station(name, tests) {
  const opened = await openStore(join(folder, name), { now: world.now, indexRowOf, create: world.station });
  if (!opened.ok) throw new Error(opened.reason);
  if (tests > 0) {
    const filled = await opened.value.recordAll(manyYears(tests));
    if (!filled.ok) throw new Error(filled.reason);
  }
  return opened.value;
}

/** Sixty tests a day up to the day before the bench's. */
function* manyYears(tests) {
  const last = Date.parse("2026-11-23T20:00:00Z");
  for (let i = tests; i > 0; i -= 1) {
    const at = new Date(last - i * 24 * 60_000).toISOString().replace(/\.\d+Z$/, "+00:00");
    yield world.testEntry(`F-${i}`, at);
  }
}

async function saves(store) {
  const times = { save: [], bare: [], blocking: [] };
  for (let i = -20; i < rounds; i += 1) {
    const draft = world.busyDraft("B-1", (i + 40) % 40);
    const text = `${JSON.stringify(draft, null, 2)}\n`;
    const kept = i < 0 ? { save: [], bare: [], blocking: [] } : times;
    await timed(kept.save, () => store.saveDraft(draft));
    await timed(kept.bare, () => bare(text));
    await timed(kept.blocking, () => bareBlocking(text));
  }
  return times;
}

async function records(store, name) {
  const times = [];
  for (let i = 0; i < 60; i += 1) await timed(times, () => store.record(world.testEntry(`${name}-${i}`)));
  return times;
}

const empty = await station("empty", 0);
const times = await saves(empty);
console.log(`save of a draft        ${shown(times.save)}`);
console.log(`bare flushed write     ${shown(times.bare)}`);
console.log(`  the same, blocking   ${shown(times.blocking)}`);
const ratio = median(times.save) / median(times.bare);
console.log(
  `ratio of medians       ${ratio.toFixed(2)} (goal: at most ${goal}); against blocking ${(median(times.save) / median(times.blocking)).toFixed(2)}`,
);
console.log(`record, empty station  ${shown(await records(empty, "E"))}`);
await empty.close();

const from = performance.now();
const old = await station("old", onFile);
console.log(`filling with ${onFile} tests took ${((performance.now() - from) / 1000).toFixed(1)} s`);
await old.close();
const opening = [];
let reopened;
await timed(opening, async () => {
  reopened = await station("old", 0);
});
console.log(`opening it             ${shown(opening)}`);
console.log(`save, old station      ${shown((await saves(reopened)).save)}`);
console.log(`record, old station    ${shown(await records(reopened, "O"))}`);
await reopened.close();
await rm(folder, { recursive: true, force: true });
process.exitCode = ratio <= goal ? 0 : 1;
