import { constants } from "node:os";
import { printable } from "./sanitise.ts";
import type { TerminalSession } from "./session.ts";

/** The part of node's `process` that starting and stopping needs. */
export type Host = Pick<
  NodeJS.Process,
  "env" | "stdin" | "stdout" | "stderr" | "on" | "off" | "once" | "exit" | "kill" | "pid" | "removeAllListeners"
>;

/** Exit code of a fault in the program itself (sysexits EX_SOFTWARE). */
export const FAULT = 70;

const STOPPING = ["SIGINT", "SIGTERM", "SIGBREAK"] as const;
type Stopping = (typeof STOPPING)[number] | "SIGHUP";

/**
 * A write beyond the largest file allowed: it fails and is told like any other that fails. Node ignores this signal, but a
 * library beneath Ink ends the program on it unless somebody else hears it too.
 */
const HEARD = (["SIGXFSZ"] as const).filter((signal) => signal in constants.signals);
const noEnding = () => undefined;

/** What to say of a fault on standard error; may keep a report of it, but at once. */
export type FaultWords = (fault: unknown) => string;

export const plainWords: FaultWords = (fault) => {
  const story = fault instanceof Error ? (fault.stack ?? fault.message) : String(fault);
  return `Sievewright stopped because of a fault of its own. What was accepted is kept; start it again.\n${story}\n`;
};

/** A fault in telling of the fault must not hide it. */
export function tellFault(stderr: Host["stderr"], fault: unknown, words: FaultWords): void {
  let told: string;
  try {
    told = words(fault);
  } catch {
    told = plainWords(fault);
  }
  stderr.write(printable(told));
}

/** What to do at each way in which the program may be ended from outside or by a fault. */
function endings(host: Host, session: TerminalSession, words: FaultWords) {
  /** Ink draws a last frame on the way out; if that throws, the second call ends at once and with the same code. */
  const end = (code: number) => {
    try {
      host.exit(code);
    } catch {
      host.exit(code);
    }
  };
  const onSignal = (signal: Stopping) => {
    session.leave();
    end(128 + constants.signals[signal]);
  };
  /**
   * The terminal is gone. Node resets the terminal's settings as the last thing of every exit, and where that fails it
   * aborts with a core dump; so all is ended in order, and then the signal does what it would have done unheard.
   */
  const onHangUp = () => {
    host.once("exit", () => {
      host.removeAllListeners("SIGHUP");
      host.kill(host.pid, "SIGHUP");
    });
    onSignal("SIGHUP");
  };
  const onFault = (fault: unknown) => {
    session.leave();
    tellFault(host.stderr, fault, words);
    end(FAULT);
  };
  return { onSignal, onHangUp, onFault };
}

/** Whatever ends the program, the terminal is given back first. Returns what takes the guards away again. */
export function guardTerminal(host: Host, session: TerminalSession, words: FaultWords = plainWords): () => void {
  const { onSignal, onHangUp, onFault } = endings(host, session, words);
  const signals = STOPPING.filter((signal) => signal in constants.signals);
  for (const signal of signals) host.on(signal, onSignal);
  for (const signal of HEARD) host.on(signal, noEnding);
  host.on("SIGHUP", onHangUp);
  host.on("uncaughtException", onFault);
  host.on("exit", session.leave);
  host.stdin.on("end", onHangUp).on("error", onHangUp);
  host.stdout.on("error", onHangUp);
  return () => {
    for (const signal of signals) host.off(signal, onSignal);
    for (const signal of HEARD) host.off(signal, noEnding);
    host.off("SIGHUP", onHangUp);
    host.off("uncaughtException", onFault);
    host.off("exit", session.leave);
    host.stdin.off("end", onHangUp).off("error", onHangUp);
    host.stdout.off("error", onHangUp);
  };
}
