import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll } from "vitest";

const program = fileURLToPath(new URL("../../dist/sievewright.mjs", import.meta.url));
const home = mkdtempSync(join(tmpdir(), "sievewright-home-"));
afterAll(() => rmSync(home, { recursive: true, force: true }));

/** The built program as a process of its own, in an empty home. */
export function builtRun(args: readonly string[], input = "", more: Readonly<Record<string, string>> = {}) {
  const places = { HOME: home, XDG_DATA_HOME: home, LOCALAPPDATA: home, USERPROFILE: home };
  const env = { PATH: process.env.PATH, LANG: "C.UTF-8", ...places, ...more };
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], { env, input, encoding: "utf8" });
  return { status, stdout, stderr };
}
