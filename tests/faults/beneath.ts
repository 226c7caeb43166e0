import { mkdtempSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { onTestFinished } from "vitest";

/** A fault of the file layer beneath the built program; see beneath.mjs. */
export interface FaultBeneath {
  readonly call: "create" | "write" | "flush" | "rename" | "remove" | "makeFolder" | "read" | "open";
  /** A regular expression that the path of the file matches, in which a temporary file goes by its own name. */
  readonly path: string;
  readonly code: string;
  readonly bytes?: number | "half" | "butOne" | "inCharacter" | "all";
  readonly times?: number;
}

export type Crash = "throw" | "reject" | "key" | "draw";

export interface Beneath {
  /** For the program's environment. */
  readonly env: Readonly<Record<string, string>>;
  /** From now on these faults, and no others. */
  fails(...faults: readonly FaultBeneath[]): void;
  crashes(how: Crash): void;
}

/** Puts a file layer that can fail beneath a program started with this environment. */
export function beneath(): Beneath {
  const folder = mkdtempSync(join(tmpdir(), "sievewright-beneath-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const control = join(folder, "control.json");
  const wants = (what: object): void => {
    writeFileSync(`${control}.new`, JSON.stringify(what));
    renameSync(`${control}.new`, control);
  };
  return {
    env: { NODE_OPTIONS: `--import ${new URL("beneath.mjs", import.meta.url).href}`, BENEATH: control },
    fails: (...faults) => wants({ faults }),
    crashes: (crash) => wants({ crash }),
  };
}
