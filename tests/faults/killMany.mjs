// npm run test:kill [-- ROUNDS [SEED]]: a thousand kills, or so many, with these dice; what was found stands on the last lines.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const [rounds = "1000", seed = "20261124"] = process.argv.slice(2);
const vitest = fileURLToPath(new URL("../../node_modules/vitest/vitest.mjs", import.meta.url));
const asked = ["run", "tests/faults/killed.test.ts", "-t", "killed at any moment"];
const { status } = spawnSync(process.execPath, [vitest, ...asked], {
  stdio: "inherit",
  env: { ...process.env, KILL_ROUNDS: rounds, KILL_SEED: seed },
});
process.exitCode = status ?? 1;
