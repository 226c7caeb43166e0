// Loaded beneath the built program (node --import): its clock runs FAST times as fast, and what it does each second it does as
// often as that. Every ten minutes by that clock the memory in use is written to MEMORY_LOG, once without and once with
// everything swept out that nobody holds any more.
import { appendFileSync } from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import os from "node:os";
import v8 from "node:v8";
import { runInNewContext } from "node:vm";

const FAST = Number(process.env.FAST);
const EVERY_MS = 600_000;
const RealDate = Date;
const begunMs = RealDate.now();
const bootedS = os.uptime();
const goneMs = () => (RealDate.now() - begunMs) * FAST;

globalThis.Date = class extends RealDate {
  constructor(...given) {
    super(...(given.length === 0 ? [begunMs + goneMs()] : given));
  }
  static now() {
    return begunMs + goneMs();
  }
};
os.uptime = () => bootedS + goneMs() / 1000;
syncBuiltinESMExports();

const interval = globalThis.setInterval;
globalThis.setInterval = (work, everyMs, ...more) =>
  interval(work, everyMs >= 1000 ? everyMs / FAST : everyMs, ...more);

let sweep;
interval(() => {
  v8.setFlagsFromString("--expose-gc");
  sweep ??= runInNewContext("gc");
  const before = process.memoryUsage();
  sweep();
  const after = process.memoryUsage();
  const line = { minutes: goneMs() / 60_000, rss: before.rss, heapUsed: after.heapUsed, external: after.external };
  appendFileSync(process.env.MEMORY_LOG, `${JSON.stringify(line)}\n`);
}, EVERY_MS / FAST).unref();
