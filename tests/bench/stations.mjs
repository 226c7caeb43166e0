// The stations that the benches run on: one without a test, and one with as many as a busy plant has after eleven years.
// Filling the large one takes minutes; it is kept in BENCH_STATIONS, else in the temporary folder, and used again.
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, renameSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

export const PROGRAM = "dist/sievewright.mjs";
export const MANY = 100_000;

const kept = process.env.BENCH_STATIONS ?? join(tmpdir(), "sievewright-bench-stations");
const run = (...args) => execFileSync(process.execPath, [PROGRAM, ...args], { stdio: ["ignore", "ignore", "inherit"] });

/** Products and programs of the shared folder, nothing recorded but that they were loaded. */
function empty() {
  const scratch = mkdtempSync(join(tmpdir(), "sievewright-bench-"));
  process.once("exit", () => rmSync(scratch, { recursive: true, force: true }));
  const folder = join(scratch, "station");
  run("product", "import", "shared", "--data", folder, "--by", "KO");
  return folder;
}

function large() {
  const folder = join(kept, `${MANY}`);
  if (existsSync(folder)) return folder;
  console.log(`filling a station with ${MANY} tests, once; it stays in ${kept} ...`);
  mkdirSync(kept, { recursive: true });
  const filling = mkdtempSync(join(kept, "filling-"));
  run("demo", "--data", join(filling, "station"), "--fill", `${MANY}`);
  renameSync(join(filling, "station"), folder);
  rmSync(filling, { recursive: true });
  return folder;
}

export const stations = () => [
  { tests: 0, folder: empty() },
  { tests: MANY, folder: large() },
];

/** Takes away the drafts that a bench left in a station. */
export function withoutNewDrafts(folder, bench) {
  const drafts = join(folder, "drafts");
  const before = new Set(existsSync(drafts) ? readdirSync(drafts) : []);
  return bench().finally(() => {
    for (const name of readdirSync(drafts)) if (!before.has(name)) rmSync(join(drafts, name));
  });
}
