import { FIRST_PREVIOUS, sealOf } from "../record/seal.ts";

/** What of an entry its place in the chain depends on; nothing else of it is looked at but through its seal. */
export interface Link {
  readonly number: number;
  readonly day: string;
  readonly previous: string;
}

/** Entries of one day file that follow on one another, reduced to their two ends. */
export interface Run {
  readonly file: string;
  readonly first: number;
  readonly previous: string;
  readonly last: number;
  readonly lastSeal: string;
}

/** The first place where a log is not what was recorded. */
export interface Break {
  readonly file: string;
  readonly entry: number;
  readonly how: string;
}

/** Checks one day's entries among themselves and reduces them to runs; normally one. */
export function runsOf(file: string, day: string, entries: readonly Link[]): { runs: Run[]; breaks: Break[] } {
  const runs: Run[] = [];
  const breaks: Break[] = [];
  for (const entry of entries) {
    const { number, previous } = entry;
    const lastSeal = sealOf(entry);
    const before = runs.at(-1);
    if (entry.day !== day)
      breaks.push({ file, entry: number, how: `belongs to ${entry.day} and lies in the file of ${day}` });
    if (before !== undefined && number <= before.last) breaks.push({ file, entry: number, how: "is out of order" });
    if (before === undefined || number !== before.last + 1) {
      runs.push({ file, first: number, previous, last: number, lastSeal });
      continue;
    }
    if (previous !== before.lastSeal) breaks.push(changed(before));
    runs[runs.length - 1] = { ...before, last: number, lastSeal };
  }
  return { runs, breaks };
}

/** Checks that all runs of a log follow on one another, from the first entry on. */
export function joinBreaks(runs: readonly Run[]): Break[] {
  const inOrder = [...runs].sort((a, b) => a.first - b.first);
  return inOrder.flatMap((run, i) => joinBreak(inOrder[i - 1] ?? null, run) ?? []);
}

function joinBreak(before: Run | null, run: Run): Break | null {
  const next = (before?.last ?? 0) + 1;
  if (run.first > next) return { file: run.file, entry: next, how: missing(next, run.first - 1) };
  if (run.first < next) return { file: run.file, entry: run.first, how: "is there twice" };
  if (run.previous === (before?.lastSeal ?? FIRST_PREVIOUS)) return null;
  return before === null
    ? { file: run.file, entry: run.first, how: "is the first, yet holds the seal of an entry before it" }
    : changed(before);
}

/** Two neighbours that disagree tell that one of them was changed; it is reported at the earlier one. */
const changed = ({ file, last }: Run): Break => ({
  file,
  entry: last,
  how: `was changed, or the seal of it that entry ${last + 1} holds was`,
});

export const missing = (from: number, to: number): string =>
  from === to ? "is missing" : `is missing, and all up to entry ${to}`;
