import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll } from "vitest";
import type { Io, Output } from "../../src/commands/io.ts";
import { runCommand } from "../../src/commands/program.ts";
import { screensHelp } from "../../src/screens/help/screensHelp.ts";

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

function collector(): Output & { readonly text: () => string } {
  let text = "";
  return {
    write: (part, done) => {
      text += part;
      done();
    },
    on: () => undefined,
    text: () => text,
  };
}

export interface Setting {
  readonly stdin?: string;
  readonly env?: Io["env"];
  readonly now?: string;
  /** What is typed at each hidden question in turn; without it there is no terminal. */
  readonly hidden?: readonly string[];
}

/** Runs one command line in this process, at night at an invented plant, with UTF-8. */
export async function run(argv: readonly string[], { stdin = "", env, now, hidden }: Setting = {}): Promise<Ran> {
  const answers = [...(hidden ?? [])];
  const [stdout, stderr] = [collector(), collector()];
  const code = await runCommand(argv, {
    stdout,
    stderr,
    stdin: (async function* () {
      yield stdin;
    })(),
    env: { LANG: "C.UTF-8", SIEVEWRIGHT_DATA: join(tmpdir(), "sievewright-no-such-folder"), ...env },
    now: () => now ?? "2026-11-24T03:12:05+01:00",
    version: "0.0.0-test",
    askHidden: async () => answers.shift() ?? null,
    pinCost: { n: 1024, r: 8, p: 1 },
    showDemo: async () => ({ code: 0, out: "" }),
    screensHelp: async () => screensHelp(),
  });
  return { code, out: stdout.text(), err: stderr.text() };
}

export const shared = (name: string): string => fileURLToPath(new URL(`../../shared/${name}`, import.meta.url));

const folders: string[] = [];
/** A folder that is gone after the tests of this file. */
export function folder(): string {
  const made = mkdtempSync(join(tmpdir(), "sievewright-"));
  folders.push(made);
  return made;
}

/** A file with this text; an object is written as JSON. */
export function file(name: string, text: string | object): string {
  const path = join(folder(), name);
  writeFileSync(path, typeof text === "string" ? text : JSON.stringify(text, null, 2));
  return path;
}

afterAll(() => {
  for (const made of folders) rmSync(made, { recursive: true, force: true });
});
