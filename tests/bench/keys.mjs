// A key pressed to its character on the screen, in a real pseudo-terminal, after a warm-up: digits of a mass, typed and
// taken back, on the page where all weighing is done. In turns with a program that only echoes what it is sent: what a key takes
// on this machine, with whatever else it does.
import { against, spread, within } from "./figures.mjs";
import { setOut } from "./operator.mjs";
import { PROGRAM, withoutNewDrafts } from "./stations.mjs";
import { pause, processorMs, started } from "./terminal.mjs";

const WARM_UP = 100;
const KEYS = 500;
const BETWEEN_MS = 40;
const GOAL_MS = 16;

/** Waits for the first output after a key. */
function keyToFrame({ terminal }, key) {
  return new Promise((resolve) => {
    const begun = performance.now();
    const listening = terminal.onData(() => {
      listening.dispose();
      resolve(performance.now() - begun);
    });
    terminal.write(key);
  });
}

const ECHO = "process.stdin.setRawMode(true).on('data', (key) => process.stdout.write(key)); console.log('ready')";

async function measured({ folder }, cols, rows) {
  const program = started([PROGRAM, "--data", folder], { cols, rows });
  const echo = started(["-e", ECHO], { cols, rows });
  await echo.sees("ready");
  await program.sees(/PASS|FAIL|no test on record/);
  await pause(500);
  await setOut(program, "K1");
  await pause(300);
  const timings = [];
  const echoed = [];
  let before = null;
  for (let i = 0; i < WARM_UP + KEYS; i++) {
    if (i === WARM_UP) before = processorMs(program.pid);
    const taken = await keyToFrame(program, i % 2 === 0 ? String(i % 10) : "\x7f");
    if (i >= WARM_UP) timings.push(taken);
    await pause(BETWEEN_MS / 2);
    echoed.push(await keyToFrame(echo, "a"));
    await pause(BETWEEN_MS / 2);
  }
  const after = processorMs(program.pid);
  program.write("\x03");
  await program.gone;
  echo.kill();
  return { ...spread(timings), echo: spread(echoed), cpuMs: before === null ? null : (after - before) / KEYS };
}

export async function benchKeys(stations) {
  for (const station of stations)
    for (const [cols, rows] of [
      [80, 24],
      [160, 50],
    ]) {
      const found = await withoutNewDrafts(station.folder, () => measured(station, cols, rows));
      const what = `key to frame at ${cols}x${rows}, ${station.tests} tests`;
      within(`${what}: p99 of ${KEYS}`, found.p99, GOAL_MS);
      against("  the same against a bare echo", found.p99, found.echo.p99, "p99 of a bare echo");
      against("  median", found.median, found.echo.median, "median of a bare echo");
      if (found.cpuMs !== null) within("  processor time of a key and its frame", found.cpuMs);
    }
}
