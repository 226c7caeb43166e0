// A key pressed to its character on the screen, in a real pseudo-terminal, after a warm-up.
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { spawn } from "@lydell/node-pty";
import { row, spread } from "./figures.mjs";

const WARM_UP = 60;
const KEYS = 500;

const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

/** Waits for the first output after a key. */
function keyToFrame(terminal, key) {
  return new Promise((resolve) => {
    const begun = process.hrtime.bigint();
    const listening = terminal.onData(() => {
      listening.dispose();
      resolve(Number(process.hrtime.bigint() - begun) / 1e6);
    });
    terminal.write(key);
  });
}

export async function benchKeys(cols, rows) {
  const folder = mkdtempSync(join(tmpdir(), "sievewright-bench-"));
  try {
    execFileSync(process.execPath, ["dist/sievewright.mjs", "demo", "--data", folder, "--fill", "200"]);
    const terminal = spawn(process.execPath, ["dist/sievewright.mjs", "--data", folder], {
      cols,
      rows,
      env: { ...process.env, LANG: "C.UTF-8" },
    });
    await pause(2000);
    for (const key of ["n", "\r", "\r", "\r", "\r", "3", "0", "0", "\r"]) {
      terminal.write(key);
      await pause(60);
    }
    const timings = [];
    for (let i = 0; i < WARM_UP + KEYS; i++) {
      const key = i % 2 === 0 ? String(i % 10) : "\x7f";
      const taken = await keyToFrame(terminal, key);
      if (i >= WARM_UP) timings.push(taken);
      await pause(20);
    }
    terminal.kill("SIGKILL");
    const { median, p99 } = spread(timings);
    row(`key to frame at ${cols}x${rows}, median of ${KEYS}`, median, null, "");
    row(`key to frame at ${cols}x${rows}, p99`, p99, null, "16 ms");
  } finally {
    await pause(200);
    rmSync(folder, { recursive: true, force: true });
  }
}
