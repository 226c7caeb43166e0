// How costs grow with the log: a station of the invented plant with 1,000, 10,000 and 100,000 tests. Each line is one cost at
// each size, and how much larger it is at the last size than at the first.
// Usage: node tests/bench/growth.mjs [tests on file ...]
// BENCH_STATIONS=FOLDER keeps the filled stations there and takes them from there: filling is what takes longest.
// BENCH_CLOCK=processor counts the processor's time instead of the clock's.
import { existsSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";

const sizes = process.argv.slice(2).map(Number);
if (sizes.length === 0) sizes.push(1_000, 10_000, 100_000);
const ROUNDS = 7;
const NOW = "2026-11-24T02:41:00+01:00";
const now = () => NOW;
const APP = { columns: 80, rows: 24 };

const folder = await mkdtemp(join(process.env.BENCH_FOLDER ?? tmpdir(), "sievewright-growth-"));
await build({
  stdin: {
    contents: `
      export { openStore } from "./src/store/openStore.ts";
      export { indexRowOf } from "./src/store/indexRowOf.ts";
      export { verifyLog } from "./src/store/verify.ts";
      export { readTrend, ANY_TIME } from "./src/store/trendReading.ts";
      export { trendChartOf } from "./src/shift/trend.ts";
      export { figureNamed } from "./src/shift/trendFigure.ts";
      export { smallTrends } from "./src/shift/trendSmall.ts";
      export { fillStation } from "./src/demo/fillStation.ts";
      export { DEMO_STATION } from "./src/demo/station.ts";
      export { startingApp, withLibraryAndLog } from "./src/screens/reading.ts";
      export { logPlace, matching, monthRead, wordsRead } from "./src/screens/log/logPlace.ts";
      export { pressed } from "./src/screens/dispatch.ts";
      export { frameOf } from "./src/screens/frame.ts";
      export * as world from "./tests/store/records.ts";`,
    resolveDir: new URL("../../", import.meta.url).pathname,
  },
  bundle: true,
  minify: true,
  platform: "node",
  format: "esm",
  outfile: join(folder, "station.mjs"),
  define: { "process.env.NODE_ENV": '"production"' },
  banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
  external: ["*/devtools.js"],
  logLevel: "error",
});
const it = await import(pathToFileURL(join(folder, "station.mjs")).href);

const must = (outcome) => {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};
const openAt = async (path, more = {}) =>
  must(await it.openStore(path, { now, indexRowOf: it.indexRowOf, create: it.DEMO_STATION, ...more }));

/** Time as the clock on the wall has it, or the processor's: on a machine that does other things as well only that compares. */
const clockMs =
  process.env.BENCH_CLOCK === "processor"
    ? () => (process.cpuUsage().user + process.cpuUsage().system) / 1000
    : () => performance.now();

async function timed(work) {
  const from = clockMs();
  const outcome = await work();
  return { ms: clockMs() - from, outcome };
}

/** Costs that take longer are measured three times only. */
const LONG_MS = 1000;

/** The best of so many rounds: whatever else a machine does only adds. */
async function best(rounds, work) {
  const times = [];
  for (let i = 0; i < rounds && (i < 3 || times[0] < LONG_MS); i += 1) times.push(await work(i));
  return Math.min(...times);
}

async function filled(tests) {
  const path = join(process.env.BENCH_STATIONS ?? folder, `station-${tests}`);
  if (existsSync(path)) return path;
  const store = await openAt(path);
  const filling = { tests, seed: 1, untilMs: Date.parse(NOW), programVersion: "bench" };
  const { ms } = await timed(async () => must(await it.fillStation(store, filling)));
  await store.close();
  console.log(`filled with ${tests} tests in ${(ms / 1000).toFixed(1)} s`);
  return path;
}

/** From opening the folder to the bench with its tests and trend, as text. */
const start = (path) =>
  best(ROUNDS, async () => {
    const { ms, outcome } = await timed(async () => {
      const store = await openAt(path);
      const app = await it.withLibraryAndLog(it.startingApp(store, NOW, "bench"), store);
      it.frameOf(app, APP);
      return store;
    });
    await outcome.close();
    return ms;
  });

const save = async (path) => {
  const store = await openAt(path);
  const found = await best(60, async (i) => (await timed(() => store.saveDraft(it.world.busyDraft("G-1", i % 40)))).ms);
  await store.dropDraft("G-1");
  await store.close();
  return found;
};

const record = async (path) => {
  const store = await openAt(path);
  const found = await best(ROUNDS * 3, async (i) => {
    const { ms, outcome } = await timed(() => store.record(it.world.testEntry(`G-${process.pid}-${i}`, NOW)));
    must(outcome);
    return ms;
  });
  await store.close();
  return found;
};

/** The log opened by its key and typed into as a person does, months coming as the screens ask, until none is asked for. */
async function logWith(store, filter) {
  const app = await it.withLibraryAndLog(it.startingApp(store, NOW, "bench"), store);
  let now = app;
  let months = 0;
  const follow = async ({ app: stepped, effects }) => {
    now = stepped;
    for (const effect of effects) {
      if (effect.do === "readMonthWords") await follow(it.wordsRead(now, await store.monthWords()));
      if (effect.do !== "readMonth") continue;
      months += 1;
      await follow(it.monthRead(now, effect.month, await store.indexRows(effect.month)));
    }
  };
  await follow(it.logPlace(app));
  for (const text of filter) await follow(it.pressed(now, { name: "char", text }, NOW));
  it.frameOf(now, APP);
  return { months, rows: it.matching(now.place).length };
}

/** A test of the first day that the station worked: what lies farthest back. */
async function firstTest(path) {
  const store = await openAt(path);
  const [row] = await store.indexRows(store.indexMonths().at(-1));
  await store.close();
  return row;
}

async function searched(path, filter) {
  const store = await openAt(path);
  const { ms, outcome } = await timed(() => logWith(store, filter));
  await store.close();
  if (filter !== "" && outcome.rows === 0) throw new Error(`nothing was found by ${filter}`);
  return { ms, months: outcome.months };
}

const log = async (path, filterOf = () => "") => {
  const filter = filterOf(await firstTest(path)).toLowerCase();
  let months = 0;
  const ms = await best(ROUNDS, async () => {
    const search = await searched(path, filter);
    months = search.months;
    return search.ms;
  });
  return { ms, months };
};

/** Before anybody has read the months: what they say is not kept yet. */
const firstSearch = async (path, filterOf) => {
  await rm(join(path, "index", "words.json"), { force: true });
  return searched(path, filterOf(await firstTest(path)).toLowerCase());
};

/** The chart of the last 200 tests of a product on its line, from the files to every signal. */
const trend = (path, work) =>
  best(ROUNDS, async () => {
    const store = await openAt(path);
    const product = (await store.products()).inForce("TH-0510", NOW.slice(0, 10));
    const { ms } = await timed(async () => {
      const rows = await it.readTrend(store, "TH-0510", "Dryer 1", { tests: 200, period: it.ANY_TIME });
      work(product, rows);
    });
    await store.close();
    return ms;
  });
const charted = (product, rows) => it.trendChartOf(rows, must(it.figureNamed(product, "d50")), "Dryer 1");
const small = (product, rows) => it.smallTrends(product, rows, "Dryer 1");

const verify = (path) =>
  best(1, async () => {
    const { ms, outcome } = await timed(() => it.verifyLog(path));
    if (!outcome.ok) throw new Error(`the log is not sound: ${outcome.firstBroken.how}`);
    return ms;
  });

/** What is known of all sieves, balances and weights: from the files to every condition. */
const care = (path) =>
  best(ROUNDS, async () => {
    const store = await openAt(path);
    const { ms } = await timed(() => store.care.known(NOW.slice(0, 10)));
    await store.close();
    return ms;
  });

const COSTS = [
  ["save an accepted weighing", save],
  ["record a test", record],
  ["sieves and balance: condition of all", care],
  ["start: open, bench with its trend", start],
  ["log: open, newest first", (path) => log(path)],
  ["log: find a product", (path) => log(path, () => "TH-PG3")],
  ["log: find a line", (path) => log(path, () => "Granulator")],
  ["log: find a verdict", (path) => log(path, () => "fail")],
  ["log: find a day of this month", (path) => log(path, () => "2026-11-20")],
  ["log: find the first lot, very first", (path) => firstSearch(path, ({ lot }) => lot)],
  ["log: find the first day", (path) => log(path, ({ at }) => at.slice(0, 10))],
  ["log: find the first lot", (path) => log(path, ({ lot }) => lot)],
  ["trend of the last 200: d50", (path) => trend(path, charted)],
  ["trend of the last 200: all limits", (path) => trend(path, small)],
  ["verify (reads all)", verify],
];

const shown = (ms) => (ms < 1000 ? `${ms.toFixed(ms < 10 ? 2 : 0)} ms` : `${(ms / 1000).toFixed(1)} s`);

/** A cost in ms, or with the index months that it read. */
const told = (cost) => (typeof cost === "number" ? { ms: cost } : cost);

function printed(name, costs) {
  const growth = `x${(costs.at(-1).ms / costs[0].ms).toFixed(2)}`;
  console.log(`${name.padEnd(36)}${costs.map(({ ms }) => shown(ms).padStart(12)).join("")}${growth.padStart(14)}`);
  if (costs.some(({ months }) => months === undefined)) return;
  console.log(`${"  index months read".padEnd(36)}${costs.map(({ months }) => `${months}`.padStart(12)).join("")}`);
}

try {
  const found = COSTS.map(() => []);
  for (const tests of sizes) {
    const path = await filled(tests);
    for (const [i, [name, cost]] of COSTS.entries()) {
      found[i].push(told(await cost(path)));
      process.stderr.write(`${name}: ${shown(found[i].at(-1).ms)}\n`);
    }
    if (!process.env.BENCH_STATIONS) await rm(path, { recursive: true, force: true });
  }
  const grown = `x${(sizes.at(-1) / sizes[0]).toFixed(0)} tests`;
  console.log(`\n${"tests on file".padEnd(36)}${sizes.map((n) => `${n}`.padStart(12)).join("")}${grown.padStart(14)}`);
  for (const [i, [name]] of COSTS.entries()) printed(name, found[i]);
} finally {
  await rm(folder, { recursive: true, force: true });
}
