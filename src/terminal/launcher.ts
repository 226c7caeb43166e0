import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { FAULT, type FaultWords, guardTerminal, type Host, plainWords, tellFault } from "./guard.ts";
import { wantsReader } from "./reader.ts";
import { takeTerminal } from "./session.ts";

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

/**
 * Runs the screens on the terminal and gives the terminal back, however they end: normally, by a throw or a rejection, by
 * SIGINT, SIGTERM or SIGHUP (exit code 128 and the signal's number, as a shell tells it), on Windows by Ctrl+Break; a
 * terminal that goes away counts as SIGHUP.
 *
 * @param start imports React, Ink and whatever uses them (so: by a dynamic import) and resolves with the exit code
 * @param words what to say of a fault on standard error
 * @returns the exit code, 70 after a fault, which is told on standard error; or why there is no terminal to use
 */
export async function launch(
  start: () => Promise<number>,
  host: Host = process,
  words: FaultWords = plainWords,
): Promise<Outcome<number>> {
  const problem = terminalProblem(host);
  if (problem) return refused(problem);
  prepareEnvironment(host.env);
  const session = takeTerminal(host, wantsReader(host.env));
  const dismiss = guardTerminal(host, session, words);
  try {
    return accepted(await start());
  } catch (fault) {
    session.leave();
    tellFault(host.stderr, fault, words);
    return accepted(FAULT);
  } finally {
    session.leave();
    dismiss();
  }
}
