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

/** Everything in turns, each round in another order, so that whatever else the computer does falls on all alike. */
async function saves(young, old) {
  const times = { bare: [], blocking: [], young: [], old: [] };
  for (let i = -20; i < rounds; i += 1) {
    const draft = world.busyDraft("B-1", (i + 40) % 40);
    const text = `${JSON.stringify(draft, null, 2)}\n`;
    const works = [
      ["bare", () => bare(text)],
      ["young", () => young.saveDraft(draft)],
      ["blocking", () => bareBlocking(text)],
      ["old", () => old.saveDraft(draft)],
    ];
    const first = (i + 20) % works.length;
    for (const [name, work] of [...works.slice(first), ...works.slice(0, first)]) {
      await timed(i < 0 ? [] : times[name], work);
    }
  }
  return times;
}

async function records(young, old) {
  const times = { young: [], old: [] };
  for (let i = 0; i < 60; i += 1) {
    await timed(times.young, () => young.record(world.testEntry(`R-${i}`)));
    await timed(times.old, () => old.record(world.testEntry(`R-${i}`)));
  }
  return times;
}

const from = performance.now();
await (await station("old", onFile)).close();
console.log(`filling a station with ${onFile} tests took ${((performance.now() - from) / 1000).toFixed(1)} s`);
const young = await station("young", 0);
const opening = [];
let old;
await timed(opening, async () => {
  old = await station("old", 0);
});
console.log(`opening it                     ${opening[0].toFixed(1)} ms`);
const save = await saves(young, old);
console.log(`bare flushed write             ${shown(save.bare)}`);
console.log(`  the same, blocking           ${shown(save.blocking)}`);
console.log(`save of a draft, new station   ${shown(save.young)}`);
console.log(`save of a draft, old station   ${shown(save.old)}`);
const record = await records(young, old);
console.log(`record of a test, new station  ${shown(record.young)}`);
console.log(`record of a test, old station  ${shown(record.old)}`);
const ratio = median(save.young) / median(save.bare);
const blocking = median(save.young) / median(save.blocking);
console.log(
  `save against bare write: ${ratio.toFixed(2)} (goal: at most ${goal}); against the blocking one: ${blocking.toFixed(2)}`,
);
console.log(
  `old station against new: save ${(median(save.old) / median(save.young)).toFixed(2)}, record ${(median(record.old) / median(record.young)).toFixed(2)}`,
);
await young.close();
await old.close();
await rm(folder, { recursive: true, force: true });
process.exitCode = ratio <= goal ? 0 : 1;
