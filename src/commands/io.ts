import type { Filling } from "../demo/fillStation.ts";
import type { ScreensHelp } from "../report/placeHelp.ts";
import type { PinCost } from "../store/operatorsVerifier.ts";
import type { Ending } from "./ending.ts";

/** Where text goes; `done` tells whether it arrived. A stream of node fits, and a test's own. */
export interface Output {
  write(text: string, done: (fault?: Error | null) => void): unknown;
  on(event: "error", heard: (fault: Error) => void): unknown;
  readonly columns?: number | undefined;
}

/** All that a command has to do with the machine besides files. */
export interface Io {
  readonly stdout: Output;
  readonly stderr: Output;
  readonly stdin: AsyncIterable<Uint8Array | string>;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** The present moment, local time with its offset: 2026-11-24T03:12:05+01:00. */
  readonly now: () => string;
  /** Of this program. */
  readonly version: string;
  /** Asks at the terminal for what nobody may see; null where there is none, or when the asked one gives up. */
  readonly askHidden: (words: string) => Promise<string | null>;
  /** What trying a new PIN costs, where it is to be less than usual. */
  readonly pinCost?: PinCost;
  /** What the screens tell of themselves: every place with its keys. */
  readonly screensHelp: () => Promise<ScreensHelp>;
  /** Shows a fresh demo station, with the tour or without: on the screens, or as a page of text where there is no terminal. */
  readonly showDemo: (filling: Filling, tour: boolean) => Promise<Ending>;
}

/** The reader has had enough, as `head` does: no fault of ours. */
const HUNG_UP = ["EPIPE", "EOF", "ERR_STREAM_DESTROYED"];

const hungUp = (fault: Error): boolean => "code" in fault && HUNG_UP.includes(String(fault.code));

/** Writes text out and waits until it is gone. Null, or what went wrong. */
export function written(output: Output, text: string): Promise<Error | "hung up" | null> {
  return new Promise((resolve) => {
    const settle = (fault?: Error | null) => resolve(fault ? (hungUp(fault) ? "hung up" : fault) : null);
    try {
      output.write(text, settle);
    } catch (fault) {
      settle(fault instanceof Error ? fault : new Error(String(fault)));
    }
  });
}

/** A failed write is told by its own callback; the stream's event besides would end the program. */
export const minded = ({ stdout, stderr }: Io): void => {
  for (const output of [stdout, stderr]) output.on("error", () => undefined);
};
