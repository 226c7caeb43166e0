/** A logged change after which limits start anew. */
export interface Restart {
  readonly at: string;
  /** What was changed, in words. */
  readonly why: string;
}

/** A stretch of tests between two changes. */
export interface Span {
  /** Index of its first and last test. */
  readonly from: number;
  readonly to: number;
  /** What began it; null for the first stretch. */
  readonly why: string | null;
  /** Its ends in ms since 1970: from the change that began it, included, to the next, not included. */
  readonly startMs: number;
  readonly endMs: number;
}

interface Change {
  readonly ms: number;
  readonly why: string | null;
}

function changesOf(restarts: readonly Restart[]): Change[] {
  const read = restarts.map(({ at, why }) => ({ ms: Date.parse(at), why }));
  const known = read.filter(({ ms }) => !Number.isNaN(ms)).toSorted((a, b) => a.ms - b.ms);
  return [{ ms: Number.NEGATIVE_INFINITY, why: null }, ...known];
}

/**
 * The stretches into which changes part tests. A test at the very moment of a change comes after it; changes with no
 * test between them begin one stretch together; stretches without a test are left out.
 *
 * @param moments of the tests, in their order of time
 */
export function spansBetween(moments: readonly string[], restarts: readonly Restart[]): Span[] {
  const changes = changesOf(restarts);
  const at = moments.map((moment) => Date.parse(moment));
  const firstOf = ({ ms }: Change) => at.filter((test) => test < ms).length;
  const spans: Span[] = [];
  let waiting: string[] = [];
  for (const [i, change] of changes.entries()) {
    const next = changes[i + 1];
    const [from, after] = [firstOf(change), next ? firstOf(next) : at.length];
    if (change.why !== null) waiting.push(change.why);
    if (after === from) continue;
    const endMs = next?.ms ?? Number.POSITIVE_INFINITY;
    spans.push({ from, to: after - 1, why: waiting.join("; ") || null, startMs: change.ms, endMs });
    waiting = [];
  }
  return spans;
}
