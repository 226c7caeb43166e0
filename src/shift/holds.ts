import type { LogEntry, NewEntry, TestEntry } from "../record/logEntry.ts";

export type HoldOpened = Extract<LogEntry, { kind: "hold opened" }>;
export type HoldClosed = Extract<LogEntry, { kind: "hold closed" }>;

/** A hold, and how it was closed; null: still open. */
export interface Hold {
  readonly opened: HoldOpened;
  readonly closed: HoldClosed | null;
}

/** All holds among some entries, in the order of the log; a closing counts once, and only for a hold that is among them. */
export function holdsIn(entries: readonly LogEntry[]): readonly Hold[] {
  const closings = new Map<number, HoldClosed>();
  for (const entry of entries)
    if (entry.kind === "hold closed" && !closings.has(entry.hold.number)) closings.set(entry.hold.number, entry);
  return entries
    .filter((entry) => entry.kind === "hold opened")
    .map((opened) => ({ opened, closed: closings.get(opened.number) ?? null }));
}

export const openHolds = (entries: readonly LogEntry[]): readonly HoldOpened[] =>
  holdsIn(entries).flatMap(({ opened, closed }) => (closed === null ? [opened] : []));

/** The open hold on a lot; null when it has none. */
export const holdOn = (holds: readonly HoldOpened[], product: string, lot: string): HoldOpened | null =>
  holds.find((hold) => hold.product === product && hold.lot === lot) ?? null;

/** Why a hold can't be opened or closed like this; null when it can. */
export function holdRefusal(
  entry: Extract<NewEntry, { kind: "hold opened" | "hold closed" }>,
  matters: readonly LogEntry[],
): string | null {
  const open = openHolds(matters);
  if (entry.kind === "hold opened") {
    const there = holdOn(open, entry.product, entry.lot);
    return there === null ? null : `lot ${entry.lot} of ${entry.product} is on hold already, by entry ${there.number}`;
  }
  const { number, day } = entry.hold;
  const known = open.find((hold) => hold.number === number && hold.day === day);
  if (known === undefined) return `there is no open hold no. ${number} of ${day}`;
  if (known.product === entry.product && known.lot === entry.lot) return null;
  return `hold no. ${number} is on lot ${known.lot} of ${known.product}, not on lot ${entry.lot} of ${entry.product}`;
}

/**
 * Tests of a day after which nothing was said of a hold on their lot. Where one of them should keep its lot back, the
 * program was cut short between the test and its hold.
 *
 * @param entries of one day or more, in the order of the log
 */
export const withoutWordOfHold = (entries: readonly LogEntry[]): readonly TestEntry[] =>
  entries
    .filter((entry) => entry.kind === "test")
    .filter(({ number, test }) => {
      const after = entries.filter((entry) => entry.kind === "hold opened" || entry.kind === "hold closed");
      return !after.some((hold) => hold.number > number && hold.product === test.product.code && hold.lot === test.lot);
    });
