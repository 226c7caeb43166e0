// Start to a frame that can be used, in a real pseudo-terminal, against a bare bundled Ink hello-world and against
// `node -e 0`. All in turns, so that whatever else the machine does falls on all alike.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { against, median } from "./figures.mjs";
import { PROGRAM } from "./stations.mjs";
import { started } from "./terminal.mjs";

const ROUNDS = 21;
const GOAL = 1.3;
/** The bench is up to date: its tests are listed, or it says that there is none. From then on each key acts at once. */
const USABLE = /PASS|FAIL|BORDERLINE|no test on record/;

async function helloWorld(folder) {
  const outfile = join(folder, "hello.mjs");
  await build({
    entryPoints: ["tests/bench/hello.tsx"],
    outfile,
    bundle: true,
    platform: "node",
    format: "esm",
    target: "node20.19",
    minify: true,
    define: { "process.env.NODE_ENV": '"production"' },
    external: ["*/devtools.js"],
    jsx: "automatic",
    banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
    logLevel: "error",
  });
  return outfile;
}

async function toText(args, text) {
  const program = started(args);
  const seen = await program.sees(text);
  program.kill();
  await program.gone;
  return seen;
}

/** To the first frame and to the usable one; then it is left as a person leaves it. */
async function toBench(folder) {
  const program = started([PROGRAM, "--data", folder]);
  const first = await program.sees("new test");
  const usable = await program.sees(USABLE);
  program.write("q");
  await program.gone;
  return { first, usable };
}

export async function benchStartup(stations) {
  const folder = mkdtempSync(join(tmpdir(), "sievewright-bench-"));
  const node = [];
  const hello = [];
  const benches = stations.map(() => ({ first: [], usable: [] }));
  try {
    const bundled = await helloWorld(folder);
    for (let round = -1; round < ROUNDS; round++) {
      const keep = (list, timing) => round >= 0 && list.push(timing);
      keep(node, await toText(["-e", "console.log('up');setInterval(()=>0,1e3)"], "up"));
      keep(hello, await toText([bundled], "good morning"));
      for (const [i, station] of stations.entries()) {
        const { first, usable } = await toBench(station.folder);
        keep(benches[i].first, first);
        keep(benches[i].usable, usable);
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  for (const [clock, named] of [
    ["processorMs", "processor"],
    ["wallMs", "wall"],
  ]) {
    const of = (timings) => median(timings.map((timing) => timing[clock]));
    if (node[0][clock] === null) continue;
    for (const [i, { tests }] of stations.entries()) {
      against(`start to usable bench, ${tests} tests (${named})`, of(benches[i].usable), of(hello), "bare Ink", GOAL);
      against(`  of that to the first frame (${named})`, of(benches[i].first), of(hello), "bare Ink");
    }
    against(`start to usable bench, 0 tests (${named})`, of(benches[0].usable), of(node), "node -e 0");
  }
}
