// What proving a log costs: MB/s of `verifyLog` over a station of the invented plant, against plainly reading the same files,
// parsing them and hashing their bytes. Usage: node tests/bench/verify.mjs [tests on file]
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";

const tests = Number(process.argv[2] ?? 3000);
const ROUNDS = 5;

const folder = await mkdtemp(join(process.env.BENCH_FOLDER ?? tmpdir(), "sievewright-bench-"));
await build({
  stdin: {
    contents: `export { openStore } from "./src/store/openStore.ts"; export { indexRowOf } from "./src/store/indexRowOf.ts"; export { verifyLog } from "./src/store/verify.ts"; export { fillStation } from "./src/demo/fillStation.ts"; export { DEMO_STATION } from "./src/demo/station.ts";`,
    resolveDir: new URL("../../", import.meta.url).pathname,
  },
  bundle: true,
  minify: true,
  platform: "node",
  format: "esm",
  outfile: join(folder, "store.mjs"),
  banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
});
const { openStore, indexRowOf, verifyLog, fillStation, DEMO_STATION } = await import(
  pathToFileURL(join(folder, "store.mjs")).href
);

const station = join(folder, "station");
const now = () => "2026-11-24T02:41:00+01:00";
const store = await openStore(station, { now, indexRowOf, create: DEMO_STATION });
if (!store.ok) throw new Error(store.reason);
const filled = await fillStation(store.value, { tests, seed: 1, untilMs: Date.parse(now()), programVersion: "bench" });
if (!filled.ok) throw new Error(filled.reason);
await store.value.close();

const days = readdirSync(join(station, "log"), { recursive: true, withFileTypes: true })
  .filter((one) => one.isFile() && one.name !== "head.json")
  .map((one) => join(one.parentPath, one.name));

function plain() {
  let bytes = 0;
  for (const day of days) {
    const text = readFileSync(day);
    JSON.parse(text.toString("utf8"));
    createHash("sha256").update(text).digest("hex");
    bytes += text.length;
  }
  return bytes;
}

const best = { plain: Number.POSITIVE_INFINITY, verify: Number.POSITIVE_INFINITY };
const timed = async (name, work) => {
  const from = performance.now();
  const outcome = await work();
  best[name] = Math.min(best[name], performance.now() - from);
  return outcome;
};
let bytes = 0;
for (let round = 0; round < ROUNDS; round += 1) {
  bytes = await timed("plain", plain);
  const verified = await timed("verify", () => verifyLog(station));
  if (!verified.ok) throw new Error(`the log is not sound: ${verified.firstBroken.how}`);
}
const mbPerS = (ms) => (bytes / 1e6 / (ms / 1000)).toFixed(0);
console.log(
  `verify of ${tests} tests, ${days.length} days, ${(bytes / 1e6).toFixed(1)} MB: ${mbPerS(best.verify)} MB/s, ` +
    `${(best.verify / best.plain).toFixed(2)}x of plain read + parse + hash (${mbPerS(best.plain)} MB/s)   goal <= 4x`,
);
await rm(folder, { recursive: true, force: true });
