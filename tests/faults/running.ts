import { type ChildProcess, spawn } from "node:child_process";
import { EventEmitter, once } from "node:events";
import { onTestFinished } from "vitest";
import { bundled } from "./bundled.ts";

export interface Run {
  readonly child: ChildProcess;
  /** Complete once the child has come to its end. */
  readonly promises: string[];
  /** Resolves at the first promise that begins so. */
  promised(beginning: string): Promise<void>;
  readonly ended: Promise<unknown>;
}

/** Starts operators on folders, each a process of its own; none outlives its test. */
export function operators(): (folder: string, name: string, ...doing: readonly string[]) => Run {
  const program = bundled("operator.ts");
  return (...args) => started(program(), args);
}

function started(program: string, args: readonly string[]): Run {
  const child = spawn(process.execPath, [program, ...args], { stdio: ["ignore", "pipe", "inherit"] });
  onTestFinished(() => void child.kill("SIGKILL"));
  const ended = once(child, "close");
  const promises: string[] = [];
  const arrivals = new EventEmitter();
  let rest = "";
  child.stdout?.setEncoding("utf8").on("data", (chunk: string) => {
    const lines = (rest + chunk).split("\n");
    rest = lines.pop() ?? "";
    promises.push(...lines);
    arrivals.emit("promise");
  });
  const promised = async (beginning: string): Promise<void> => {
    while (!promises.some((line) => line.startsWith(beginning))) await once(arrivals, "promise");
  };
  return { child, promises, promised, ended };
}

export async function killed(run: Run): Promise<readonly string[]> {
  run.child.kill("SIGKILL");
  await run.ended;
  return run.promises;
}
