import type { Break, Run } from "./chainParts.ts";

/** "entry 4", "entries 4 to 6". */
export const entriesInWords = (from: number, to: number): string =>
  from === to ? `entry ${from}` : `entries ${from} to ${to}`;

const isOrAre = (from: number, to: number): string => (from === to ? "is" : "are");

/** Two neighbours that disagree: the later one holds the seal that the earlier one had when it was recorded. */
export const changedBefore = (file: string, entry: number): Break => ({
  file,
  entry,
  how: `changed: entry ${entry} is not as it was recorded, for entry ${entry + 1} holds another seal of it`,
});

/** Two breaks in a row: the entry between them fits neither side. */
export const changedEither = (first: Break): Break => ({
  ...first,
  how: `changed: entry ${first.entry} or entry ${first.entry + 1} is not as it was recorded, for their seals don't fit`,
});

export const movedFrom = (file: string, entry: number, day: string, inDay: string): Break => ({
  file,
  entry,
  how: `reordered: entry ${entry} belongs to ${day} and lies in the file of ${inDay}`,
});

export const behind = (file: string, entry: number, last: number): Break => ({
  file,
  entry,
  how: `reordered: entry ${entry} stands behind entry ${last}`,
});

export const twice = (file: string, entry: number): Break => ({
  file,
  entry,
  how: `reordered: entry ${entry} is there twice`,
});

export const falseFirst = ({ firstFile, first }: Run): Break => ({
  file: firstFile,
  entry: first,
  how: `changed: entry ${first} is the first, yet it holds the seal of an entry before it`,
});

/** What is known of a gap: the runs on both sides, and days that the index knows and the log has not. */
export interface Gap {
  readonly from: number;
  readonly to: number;
  readonly before: Run | null;
  readonly after: Run;
  readonly goneFile: string | null;
}

/** Names the missing entries and the day's file that should hold them, as far as that can be told. */
export function missingBetween({ from, to, before, after, goneFile }: Gap): Break {
  const what = `missing: ${entriesInWords(from, to)} ${isOrAre(from, to)} gone`;
  if (goneFile !== null) return { file: goneFile, entry: from, how: `${what} with this file, which the index knows` };
  if (before === null)
    return { file: after.firstFile, entry: from, how: `${what} from its beginning, or with a day's file before it` };
  if (before.lastFile === after.firstFile) return { file: before.lastFile, entry: from, how: what };
  const where = `from its end, from the beginning of ${after.firstFile}, or with a day's file between the two`;
  return { file: before.lastFile, entry: from, how: `${what} ${where}` };
}

/** The log ends before the entry that a witness (head, index, copy, paper) knows. */
export const cutShort = (file: string, from: number, to: number, because: string): Break => ({
  file,
  entry: from,
  how: `truncated: ${entriesInWords(from, to)} ${isOrAre(from, to)} gone from the end of the log, for ${because}`,
});

export const otherSeal = (file: string, entry: number, witness: string): Break => ({
  file,
  entry,
  how: `changed: entry ${entry} is not as it was recorded, for ${witness} holds another seal of it`,
});
