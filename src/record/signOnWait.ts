import type { Tries } from "./operators.ts";

/** So many wrong PINs cost nothing but the time to type them. */
export const FREE_TRIES = 3;
const FIRST_WAIT_MS = 30_000;
const LONGEST_WAIT_MS = 3_600_000;

/**
 * How long after the last of so many wrong PINs in a row none is looked at, in ms: nothing before the third, then 30 s,
 * doubled by each further one, at most an hour.
 *
 * @example waitAfterMs(4) // => 60000
 */
export const waitAfterMs = (count: number): number =>
  count < FREE_TRIES ? 0 : Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(count - FREE_TRIES, 20));

/** What is left of the wait at a moment, in ms. A clock that stands before the last try was set back: all of it is left. */
export function waitLeftMs({ count, lastAt }: Tries, now: string): number {
  const sinceMs = Math.max(0, Date.parse(now) - Date.parse(lastAt));
  return Math.max(0, waitAfterMs(count) - sinceMs);
}

/** A try that lies in the future, after a clock was set back, counts from now: the wait is neither shortened nor endless. */
export const notAhead = (tries: Tries, now: string): Tries =>
  Date.parse(now) < Date.parse(tries.lastAt) ? { ...tries, lastAt: now } : tries;

/** Strangers' tries are kept too, but not without bounds: the oldest of them goes first. */
const MOST_KEPT = 400;

export const triesOf = (all: readonly Tries[], who: string): Tries | undefined =>
  all.find((tries) => tries.who.toLowerCase() === who.toLowerCase());

export const withoutTries = (all: readonly Tries[], who: string): Tries[] =>
  all.filter((tries) => tries.who.toLowerCase() !== who.toLowerCase());

/** One more wrong PIN. `keeps` tells whose tries are never given up for want of room. */
export function oneMoreTry(all: readonly Tries[], who: string, now: string, keeps: (who: string) => boolean): Tries[] {
  const count = Math.min((triesOf(all, who)?.count ?? 0) + 1, 100_000);
  const others = withoutTries(all, who);
  const oldest = others.length < MOST_KEPT ? undefined : oldestOf(others.filter((tries) => !keeps(tries.who)));
  return [...others.filter((tries) => tries !== oldest), { who, count, lastAt: now }];
}

const oldestOf = (all: readonly Tries[]): Tries | undefined =>
  all.reduce<Tries | undefined>(
    (oldest, tries) => (oldest === undefined || Date.parse(tries.lastAt) < Date.parse(oldest.lastAt) ? tries : oldest),
    undefined,
  );

/** "30 s", "8 min", "1 h": rounded up, so that nobody comes back too early. */
export function waitWords(ms: number): string {
  const seconds = Math.ceil(ms / 1000);
  if (seconds < 120) return `${seconds} s`;
  const minutes = Math.ceil(seconds / 60);
  return minutes < 60 ? `${minutes} min` : `${Math.ceil(minutes / 60)} h`;
}
