import type { Break, Run } from "./chainParts.ts";
import { cutShort, otherSeal } from "./chainWords.ts";

/** An entry that is known outside the log's own days: its number and its seal, or how the seal begins. */
export interface Witness {
  /** In words: "log/head.json", "the copy of 2026-11-24 05:58". */
  readonly who: string;
  readonly number: number;
  readonly seal: string;
  /** The day that it says the entry lies in. */
  readonly day?: string | null;
  /** When it was made, in ms since 1970 UTC; absent where that is not known. */
  readonly madeMs?: number;
}

/** A log that was replaced by a copy on purpose: witnesses of what was replaced are no evidence against it. */
export interface Replaced {
  readonly number: number;
  readonly atMs: number;
}

/** What was met on the way at the numbers that witnesses name. */
export interface Met {
  readonly seal: string;
  readonly file: string;
}

/** What a witness tells against a log; null when it agrees. Where the day's file is known that should hold the entry it is named. */
export function contradiction(
  witness: Witness,
  met: Met | undefined,
  end: Run | null,
  fileOf: (day: string) => string,
): Break | null {
  const { who, number, seal, day } = witness;
  if (number === 0) return null;
  if (met !== undefined) return met.seal.startsWith(seal) ? null : otherSeal(met.file, number, who);
  const last = end?.last ?? 0;
  if (number <= last) return null; // a gap in the chain, which is told as such
  const file = day ? fileOf(day) : (end?.lastFile ?? "log/head.json");
  return cutShort(
    file,
    last + 1,
    number,
    day ? `${who} knows entry ${number} in this file` : `${who} knows entry ${number}`,
  );
}

export const isExcused = ({ number, madeMs }: Witness, replaced: readonly Replaced[]): boolean =>
  madeMs !== undefined && replaced.some((one) => number <= one.number && madeMs <= one.atMs);
