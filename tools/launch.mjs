#!/usr/bin/env node
// The way in: starts the program that lies beside it, with the code that was compiled ahead where this node takes it.
// Their names hold a digest of the program, so that no other build's code can ever be taken for this one's.
const { createHash } = process.getBuiltinModule("node:crypto");
const { readFileSync } = process.getBuiltinModule("node:fs");
const { createRequire } = process.getBuiltinModule("node:module");
const { fileURLToPath } = process.getBuiltinModule("node:url");
const { Script } = process.getBuiltinModule("node:vm");

const SUM_BYTES = 32;
const beside = (name) => fileURLToPath(new URL(name, import.meta.url));

/** What follows the sum of itself; nothing where it is missing or damaged, for V8 would not look and die of it. */
function compiledAhead() {
  try {
    const file = readFileSync(beside("PROGRAM.compiled"));
    const code = file.subarray(SUM_BYTES);
    return createHash("sha256").update(code).digest().equals(file.subarray(0, SUM_BYTES)) ? code : undefined;
  } catch {
    return undefined;
  }
}

const filename = beside("PROGRAM.js");
// One byte a character, as the bundle is written: half the memory, and nothing to decode.
const program = new Script(readFileSync(filename, "latin1"), { filename, cachedData: compiledAhead() });
program.runInThisContext()(createRequire(import.meta.url));
