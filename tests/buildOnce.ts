import { execFileSync } from "node:child_process";

/** The tests drive the built program, so it is built afresh before any of them runs. */
export default function buildOnce(): void {
  execFileSync(process.execPath, ["esbuild.config.mjs"], { stdio: "inherit" });
}
