import { constants } from "node:os";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { type TerminalSession, takeTerminal } from "./session.ts";

/** The part of node's `process` that starting and stopping needs. */
export type Host = Pick<NodeJS.Process, "env" | "stdin" | "stdout" | "stderr" | "on" | "off" | "exit">;

/** Exit code of a fault in the program itself (sysexits EX_SOFTWARE). */
const FAULT = 70;
const STOPPING = ["SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK"] as const;

/** Why the screens can't be shown here, in words; null if they can. */
export function terminalProblem({ env, stdin, stdout }: Pick<Host, "env" | "stdin" | "stdout">): string | null {
  if (!stdout.isTTY) return "the screens need a terminal, but the output goes to a file or a pipe";
  if (!stdin.isTTY) return "the screens need a keyboard, but the input comes from a file or a pipe";
  if (env.TERM === "dumb") return "this terminal (TERM=dumb) can't place text on the screen; use another one";
  return null;
}

/**
 * Sets what React, Ink and chalk read once, on being imported: React's development build keeps a record of every drawing,
 * chalk knows no NO_COLOR (set and not empty: no colours), Ink draws nothing where CI is set and looks for developer tools
 * where DEV is.
 */
export function prepareEnvironment(env: NodeJS.ProcessEnv): void {
  env.NODE_ENV = "production";
  if (env.NO_COLOR) env.FORCE_COLOR = "0";
  delete env.CI;
  delete env.CONTINUOUS_INTEGRATION;
  delete env.DEV;
}

function tellFault(stderr: Host["stderr"], fault: unknown): void {
  const story = fault instanceof Error ? (fault.stack ?? fault.message) : String(fault);
  stderr.write(
    `Sievewright stopped because of a fault of its own. What was accepted is kept; start it again.\n${story}\n`,
  );
}

/** Whatever ends the program, the terminal is given back first. Returns what takes the guards away again. */
function guard(host: Host, session: TerminalSession): () => void {
  const onFault = (fault: unknown) => {
    session.leave();
    tellFault(host.stderr, fault);
    host.exit(FAULT);
  };
  const stops = STOPPING.filter((signal) => signal in constants.signals).map((signal) => {
    const onSignal = () => {
      session.leave();
      host.exit(128 + constants.signals[signal]);
    };
    return { signal, onSignal };
  });
  for (const { signal, onSignal } of stops) host.on(signal, onSignal);
  host.on("uncaughtException", onFault);
  host.on("exit", session.leave);
  return () => {
    for (const { signal, onSignal } of stops) host.off(signal, onSignal);
    host.off("uncaughtException", onFault);
    host.off("exit", session.leave);
  };
}

/**
 * Runs the screens on the terminal and gives the terminal back, however they end: normally, by a throw or a rejection, by
 * SIGINT, SIGTERM or SIGHUP (exit code 128 and the signal's number, as a shell tells it), on Windows by Ctrl+Break.
 *
 * @param start imports React, Ink and whatever uses them (so: by a dynamic import) and resolves with the exit code
 * @returns the exit code, 70 after a fault, which is told on standard error; or why there is no terminal to use
 */
export async function launch(start: () => Promise<number>, host: Host = process): Promise<Outcome<number>> {
  const problem = terminalProblem(host);
  if (problem) return refused(problem);
  prepareEnvironment(host.env);
  const session = takeTerminal(host);
  const dismiss = guard(host, session);
  try {
    return accepted(await start());
  } catch (fault) {
    session.leave();
    tellFault(host.stderr, fault);
    return accepted(FAULT);
  } finally {
    session.leave();
    dismiss();
  }
}
