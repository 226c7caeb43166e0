// `evaluate` as a whole process against the same computation in Python with numpy and scipy, where these are installed:
// `evaluate.py` reads the same sheet and works out the same fractions, percentiles, characteristic values and models.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { against, line, median } from "./figures.mjs";
import { PROGRAM } from "./stations.mjs";

const ROUNDS = 15;
const SHEET = "shared/sheets/TH-0510.csv";
const SCRIPT = fileURLToPath(new URL("evaluate.py", import.meta.url));
const OURS = [process.execPath, [PROGRAM, "evaluate", SHEET, "--product", "shared/products/TH-0510.json", "--json"]];
const THEIRS = ["python3", [SCRIPT, SHEET]];

function run([command, args]) {
  const from = performance.now();
  const { status, stdout, error } = spawnSync(command, args, {
    encoding: "utf8",
    env: { ...process.env, OMP_NUM_THREADS: "1" },
  });
  return { ms: performance.now() - from, status: error ? null : status, stdout: stdout ?? "" };
}

/** Both must say the same, else their times are of different work. */
function sameResult(ours, theirs) {
  const apart = (a, b) => Math.abs(a - b) > 1e-3 * Math.abs(b);
  for (const [name, value] of Object.entries(theirs)) {
    const found = name in ours.percentilesUm ? ours.percentilesUm[name] : (ours.values[name] ?? ours.models[name]);
    const number = typeof found.value === "number" ? found.value : (found.sizeUm ?? found.medianUm);
    if (apart(number, value)) throw new Error(`${name} is ${number} here and ${value} in Python`);
  }
  return Object.keys(theirs).length;
}

export function benchEvaluate() {
  const first = run(THEIRS);
  if (first.status !== 0) {
    line({
      what: "evaluate as a whole process",
      figure: "skipped",
      goal: "python3 with numpy and scipy is not installed",
    });
    return;
  }
  const compared = sameResult(JSON.parse(run(OURS).stdout), JSON.parse(first.stdout));
  const [ours, theirs] = [[], []];
  for (let round = 0; round < ROUNDS; round++) {
    ours.push(run(OURS).ms);
    theirs.push(run(THEIRS).ms);
  }
  against("evaluate as a whole process (wall)", median(ours), median(theirs), `Python, ${compared} numbers alike`);
}
