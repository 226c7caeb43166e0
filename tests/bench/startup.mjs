// Start to first frame in a real pseudo-terminal, against a bare bundled Ink hello-world and against `node -e 0`.

import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { spawn } from "@lydell/node-pty";
import { build } from "esbuild";
import { row, spread } from "./figures.mjs";

const ROUNDS = 15;
const PROGRAM = "dist/sievewright.mjs";

function untilSeen(args, seen) {
  return new Promise((resolve, reject) => {
    const begun = process.hrtime.bigint();
    const terminal = spawn(process.execPath, args, { cols: 80, rows: 24, env: { ...process.env, LANG: "C.UTF-8" } });
    let output = "";
    const late = setTimeout(() => reject(new Error(`never saw ${seen} in:\n${output}`)), 20_000);
    terminal.onData((text) => {
      output += text;
      if (!output.includes(seen)) return;
      clearTimeout(late);
      const taken = Number(process.hrtime.bigint() - begun) / 1e6;
      terminal.kill("SIGKILL");
      resolve(taken);
    });
  });
}

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

function bareNode() {
  const begun = process.hrtime.bigint();
  execFileSync(process.execPath, ["-e", "0"]);
  return Number(process.hrtime.bigint() - begun) / 1e6;
}

export async function benchStartup() {
  const folder = mkdtempSync(join(tmpdir(), "sievewright-bench-"));
  try {
    const hello = await helloWorld(folder);
    const station = join(folder, "station");
    execFileSync(process.execPath, [PROGRAM, "demo", "--data", station, "--fill", "200"]);
    const timings = { program: [], hello: [], node: [] };
    for (let i = 0; i < ROUNDS; i++) {
      timings.node.push(bareNode());
      timings.hello.push(await untilSeen([hello], "good morning"));
      timings.program.push(await untilSeen([PROGRAM, "--data", station], "new test"));
    }
    const [program, floor, node] = [timings.program, timings.hello, timings.node].map((t) => spread(t).median);
    row("start to first frame, 200 tests in the store", program, floor, "1.3x of a bare Ink hello-world");
    row("the same against node -e 0", program, node, "");
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
