import type { LogEntry } from "../record/logEntry.ts";

export type HoldOpened = Extract<LogEntry, { kind: "hold opened" }>;
export type HoldClosed = Extract<LogEntry, { kind: "hold closed" }>;

/** A hold, and how it was closed; null: still open. */
export interface Hold {
  readonly opened: HoldOpened;
  readonly closed: HoldClosed | null;
}

/** All holds among some entries, in the order of the log; a closing counts once, and only for a hold that is among them. */
export function holdsIn(entries: readonly LogEntry[]): readonly Hold[] {
  const closings = entries.filter((entry) => entry.kind === "hold closed");
  return entries
    .filter((entry) => entry.kind === "hold opened")
    .map((opened) => ({ opened, closed: closings.find(({ hold }) => hold.number === opened.number) ?? null }));
}

export const openHolds = (entries: readonly LogEntry[]): readonly HoldOpened[] =>
  holdsIn(entries).flatMap(({ opened, closed }) => (closed === null ? [opened] : []));

/** The open hold on a lot; null when it has none. */
export const holdOn = (holds: readonly HoldOpened[], product: string, lot: string): HoldOpened | null =>
  holds.find((hold) => hold.product === product && hold.lot === lot) ?? null;
