// What proving a log costs: MB/s of `verifyLog` over a station of the invented plant, against plainly reading the same files,
// parsing them and hashing their bytes.
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { line } from "./figures.mjs";

const ROUNDS = 5;
const GOAL = 4;

async function bundled(folder) {
  const outfile = join(folder, "store.mjs");
  await build({
    stdin: {
      contents: `export { openStore } from "./src/store/openStore.ts"; export { indexRowOf } from "./src/store/indexRowOf.ts"; export { verifyLog } from "./src/store/verify.ts"; export { fillStation } from "./src/demo/fillStation.ts"; export { DEMO_STATION } from "./src/demo/station.ts";`,
      resolveDir: new URL("../../", import.meta.url).pathname,
    },
    bundle: true,
    minify: true,
    platform: "node",
    format: "esm",
    outfile,
    banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
    logLevel: "error",
  });
  return import(pathToFileURL(outfile).href);
}

async function filled({ openStore, indexRowOf, fillStation, DEMO_STATION }, station, tests) {
  const now = () => "2026-11-24T02:41:00+01:00";
  const store = await openStore(station, { now, indexRowOf, create: DEMO_STATION });
  if (!store.ok) throw new Error(store.reason);
  const filling = await fillStation(store.value, {
    tests,
    seed: 1,
    untilMs: Date.parse(now()),
    programVersion: "bench",
  });
  if (!filling.ok) throw new Error(filling.reason);
  await store.value.close();
}

const daysOf = (station) =>
  readdirSync(join(station, "log"), { recursive: true, withFileTypes: true })
    .filter((one) => one.isFile() && one.name !== "head.json")
    .map((one) => join(one.parentPath, one.name));

function plainlyRead(days) {
  let bytes = 0;
  for (const day of days) {
    const text = readFileSync(day);
    JSON.parse(text.toString("utf8"));
    createHash("sha256").update(text).digest("hex");
    bytes += text.length;
  }
  return bytes;
}

async function best(work) {
  let least = Number.POSITIVE_INFINITY;
  let outcome;
  for (let round = 0; round < ROUNDS; round++) {
    const from = performance.now();
    outcome = await work();
    least = Math.min(least, performance.now() - from);
  }
  return { leastMs: least, outcome };
}

export async function benchVerify(tests) {
  const folder = await mkdtemp(join(process.env.BENCH_FOLDER ?? tmpdir(), "sievewright-bench-"));
  try {
    const store = await bundled(folder);
    const station = join(folder, "station");
    await filled(store, station, tests);
    const days = daysOf(station);
    const plain = await best(() => plainlyRead(days));
    const proved = await best(() => store.verifyLog(station));
    if (!proved.outcome.ok) throw new Error(`the log is not sound: ${proved.outcome.firstBroken.how}`);
    const mbPerS = (ms) => `${(plain.outcome / 1e6 / (ms / 1000)).toFixed(0)} MB/s`;
    const ratio = proved.leastMs / plain.leastMs;
    line({
      what: `proof of a log of ${tests} tests, ${days.length} days`,
      figure: mbPerS(proved.leastMs),
      floor: `${mbPerS(plain.leastMs)} plain read, parse, hash`,
      ratio: `${ratio.toFixed(2)}x`,
      goal: `<= ${GOAL}x`,
      met: ratio <= GOAL,
    });
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
