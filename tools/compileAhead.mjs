// Runs the bundled program once, on an invented station and a terminal that nobody sees, and keeps the code that V8 made of
// it up to the bench and through the first keys. Usage: node tools/compileAhead.mjs PROGRAM COMPILED STATION
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { PassThrough, Writable } from "node:stream";
import { setTimeout as pause } from "node:timers/promises";
import { Script } from "node:vm";

const [filename, compiled, station] = process.argv.slice(2);
const QUIET_MS = 400;
const LONGEST_MS = 60_000;

const keyboard = Object.assign(new PassThrough(), { isTTY: true, setRawMode: () => keyboard });
let shown = "";
let lastMs = performance.now();
const screen = new Writable({
  decodeStrings: false,
  write(text, _encoding, done) {
    shown += text;
    lastMs = performance.now();
    done();
  },
});
Object.assign(screen, { isTTY: true, columns: 80, rows: 24 });

/** Until the screen shows a text and then nothing new for a while. */
async function until(seen) {
  shown = "";
  const from = performance.now();
  while (!shown.includes(seen) || performance.now() - lastMs < QUIET_MS) {
    if (performance.now() - from > LONGEST_MS) throw new Error(`the program never showed ${seen}`);
    await pause(50);
  }
}

async function press(key, seen) {
  const shows = until(seen);
  keyboard.write(key);
  await shows;
}

Object.defineProperty(process, "stdin", { value: keyboard });
Object.defineProperty(process, "stdout", { value: screen });
process.argv = [process.execPath, filename, "--data", station];

const program = new Script(readFileSync(filename, "latin1"), { filename });
program.runInThisContext()(createRequire(filename));
await until("PASS");
await press("n", "product");
await press("\x1b", "PASS");
const code = program.createCachedData();
writeFileSync(compiled, Buffer.concat([createHash("sha256").update(code).digest(), code]));
keyboard.write("q");
