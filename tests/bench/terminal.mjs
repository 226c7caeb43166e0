// A program in a real pseudo-terminal, as the benches drive it.
import { readdirSync, readFileSync } from "node:fs";
import { spawn } from "@lydell/node-pty";

const LONGEST_MS = 60_000;
/** Places, colours, modes: what is written between the texts. */
const SEQUENCES = /\x1b\[[0-9;?]*[A-Za-z]/g;

export const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

/** Processor time of all threads of a process so far, in ms; null where the system doesn't tell it (other than Linux). */
export function processorMs(pid) {
  try {
    const threads = readdirSync(`/proc/${pid}/task`);
    const nanoseconds = threads.map((id) =>
      Number(readFileSync(`/proc/${pid}/task/${id}/schedstat`, "utf8").split(" ")[0]),
    );
    return nanoseconds.reduce((sum, n) => sum + n, 0) / 1e6;
  } catch {
    return null;
  }
}

/** Starts node with these arguments; `sees` waits for a text or pattern in all that was written so far. */
export function started(args, { cols = 80, rows = 24, env = {} } = {}) {
  const begun = performance.now();
  const clean = { ...process.env, LANG: "C.UTF-8", NO_COLOR: "", ...env };
  const terminal = spawn(process.execPath, args, { cols, rows, env: clean });
  const gone = new Promise((resolve) => terminal.onExit(({ exitCode }) => resolve(exitCode)));
  let output = "";
  const read = () => output.replace(SEQUENCES, "");
  let look = () => {};
  terminal.onData((text) => {
    output += text;
    look();
  });
  const sees = (what) =>
    new Promise((resolve, reject) => {
      const late = setTimeout(() => reject(new Error(`never saw ${what} in:\n${read().slice(-3000)}`)), LONGEST_MS);
      look = () => {
        if (typeof what === "string" ? !read().includes(what) : !what.test(read())) return;
        clearTimeout(late);
        look = () => {};
        resolve({ wallMs: performance.now() - begun, processorMs: processorMs(terminal.pid) });
      };
      look();
    });
  return {
    pid: terminal.pid,
    terminal,
    sees,
    write: (text) => terminal.write(text),
    forget: () => {
      output = "";
    },
    output: read,
    gone,
    kill: () => terminal.kill("SIGKILL"),
  };
}
