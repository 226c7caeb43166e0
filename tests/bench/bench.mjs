// Costs as ratios to floors measured in the same run. Nothing here fails a build: machines differ, ratios tell.
import { execFileSync } from "node:child_process";
import { benchAssess } from "./assess.mjs";
import { benchKeys } from "./keys.mjs";
import { benchStartup } from "./startup.mjs";
import { benchUncertainty } from "./uncertainty.mjs";

execFileSync(process.execPath, ["esbuild.config.mjs"], { stdio: "inherit" });
console.log(`Node ${process.version}, ${new Date().toISOString().slice(0, 10)}\n`);
await benchAssess();
await benchUncertainty();
await benchStartup();
await benchKeys(80, 24);
await benchKeys(160, 50);
execFileSync(process.execPath, ["tests/bench/save.mjs", "200", "2000"], { stdio: "inherit" });
execFileSync(process.execPath, ["tests/bench/verify.mjs", "2000"], { stdio: "inherit" });
