// What things cost, as ratios to floors measured in the same run. Nothing here fails a build: machines differ, ratios tell.
// `npm run bench -- --doc` also writes docs/speed.md. BENCH_STATIONS=FOLDER keeps the large station there.
// Parts: npm run bench -- startup keys save shift evaluate computing
import { execFileSync } from "node:child_process";
import { benchAssess } from "./assess.mjs";
import { benchEvaluate } from "./evaluate.mjs";
import { lines } from "./figures.mjs";
import { benchKeys } from "./keys.mjs";
import { loadNow, writePage } from "./page.mjs";
import { benchSave } from "./save.mjs";
import { benchShift } from "./shift.mjs";
import { benchStartup } from "./startup.mjs";
import { stations } from "./stations.mjs";
import { benchUncertainty } from "./uncertainty.mjs";
import { benchVerify } from "./verify.mjs";

const PARTS = {
  startup: benchStartup,
  keys: benchKeys,
  save: benchSave,
  evaluate: benchEvaluate,
  async computing() {
    await benchAssess();
    await benchUncertainty();
    await benchVerify(2000);
  },
  shift: (all) => Promise.all(all.map(benchShift)),
};

const asked = process.argv.slice(2).filter((word) => word in PARTS);
execFileSync(process.execPath, ["esbuild.config.mjs"], { stdio: "inherit" });
const all = stations();
for (const name of asked.length > 0 ? asked : Object.keys(PARTS)) {
  const from = lines.length;
  await PARTS[name](all);
  if (process.argv.includes("--doc")) writePage({ name, lines: lines.slice(from), load: loadNow() });
}
