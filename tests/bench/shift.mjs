// The memory of a shift of eight hours: the built program in a real pseudo-terminal on a real store, its clock eighty times
// as fast, one test after the other set out, weighed, shaken, signed and recorded key by key.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { line } from "./figures.mjs";
import { setOut, until } from "./operator.mjs";
import { PROGRAM } from "./stations.mjs";
import { pause, started } from "./terminal.mjs";

const FAST = 80;
const HOURS = 8;
const SETTLED_MIN = 60;
const MOST_MB = 150;
/** What may come on top after the first hour: forty tests, of which the screens keep what they list. */
const FLAT_MB = 3;
const EMPTY_G = [412.31, 398.74, 381.2, 366.95, 359.4, 354.1];
const FULL_G = [418.02, 455.2, 484.8, 465.35, 391.2, 358.03];
async function weigh(program, stage, masses) {
  for (const [i, grams] of masses.entries()) {
    const next = i + 1 < masses.length ? new RegExp(`${stage} ${i + 1}/`) : /clamp it|TEST (?:IN)?VALID/;
    await until(program, [...grams.toFixed(2), "\r"], next);
  }
}

async function oneTest(program, number) {
  await setOut(program, `M${number}`);
  await weigh(program, "weigh empty", EMPTY_G);
  await until(program, ["\r"], /to go|time is up/);
  await program.sees(/time is up/);
  await until(program, ["\r"], /weigh full 0\/6/);
  await weigh(program, "weigh full", FULL_G);
  await until(program, ["\r", "\r"], /signed by/);
  await until(program, [..."KO", "\r"], /recorded as no\. \d/);
  await pause(200);
}

async function shift({ folder }, log) {
  const env = { FAST: `${FAST}`, MEMORY_LOG: log };
  const preload = fileURLToPath(new URL("fastClock.mjs", import.meta.url));
  const program = started(["--import", preload, PROGRAM, "--data", folder], { env });
  await program.sees(/PASS|FAIL|no test on record/);
  const untilMs = Date.now() + (HOURS * 3_600_000) / FAST;
  let tests = 0;
  while (Date.now() < untilMs) await oneTest(program, ++tests);
  program.write("\x03");
  await program.gone;
  const samples = readFileSync(log, "utf8")
    .trim()
    .split("\n")
    .map((text) => JSON.parse(text));
  return { tests, samples };
}

const mb = (bytes) => bytes / 1e6;

export async function benchShift({ tests: before, folder }) {
  const scratch = mkdtempSync(join(tmpdir(), "sievewright-bench-"));
  try {
    const { tests, samples } = await shift({ folder }, join(scratch, "memory.jsonl"));
    const later = samples.filter(({ minutes }) => minutes >= SETTLED_MIN);
    const most = Math.max(...samples.map(({ rss }) => mb(rss)));
    const held = (sample) => mb(sample.heapUsed + sample.external);
    const grown = held(later.at(-1)) - held(later[0]);
    const what = `a shift of ${HOURS} h, ${tests} tests on top of ${before}`;
    line({
      what: `${what}: most memory`,
      figure: `${most.toFixed(0)} MB`,
      goal: `<= ${MOST_MB} MB`,
      met: most <= MOST_MB,
    });
    line({
      what: "  held at its end, and how much more than after the first hour",
      figure: `${held(later.at(-1)).toFixed(1)} MB`,
      floor: `${grown >= 0 ? "+" : ""}${grown.toFixed(1)} MB`,
      goal: `flat: <= +${FLAT_MB} MB`,
      met: grown <= FLAT_MB,
    });
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}
