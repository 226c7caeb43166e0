import { FIRST_PREVIOUS } from "../record/seal.ts";
import type { Break, Run } from "./chainParts.ts";
import { behind, changedBefore, changedEither, falseFirst, missingBetween, twice } from "./chainWords.ts";

/**
 * Runs of entries, joined as soon as they meet, in whatever order they come: what is kept grows with the gaps of a log and
 * not with its length. Of the breaks only the first two are kept.
 */
export class ChainRuns {
  /** In the order of their numbers, none touching another. */
  readonly #runs: Run[] = [];
  #breaks: readonly Break[] = [];

  note(...found: readonly Break[]): void {
    if (found.length > 0) this.#breaks = [...this.#breaks, ...found].sort((a, b) => a.entry - b.entry).slice(0, 2);
  }

  /** Takes entries that follow on one another. What is there already is told and not taken again. */
  add(run: Run): void {
    const at = this.#placeOf(run.first);
    const [before, after] = [this.#runs[at - 1], this.#runs[at]];
    if ((before !== undefined && run.first <= before.last) || (after !== undefined && run.last >= after.first)) {
      this.note(twice(run.firstFile, run.first));
      return;
    }
    const touchesBefore = before?.last === run.first - 1 ? before : null;
    const touchesAfter = after?.first === run.last + 1 ? after : null;
    const withAfter = touchesAfter === null ? run : this.#joined(run, touchesAfter);
    const longer = touchesBefore === null ? withAfter : this.#joined(touchesBefore, withAfter);
    const from = touchesBefore === null ? at : at - 1;
    this.#runs.splice(from, (touchesBefore === null ? 0 : 1) + (touchesAfter === null ? 0 : 1), longer);
  }

  /** The last entry of all. */
  end(): Run | null {
    return this.#runs.at(-1) ?? null;
  }

  /** The first place where something is changed, out of order or missing; null for a sound chain. */
  firstBreak(goneFileBetween: (before: Run | null, after: Run) => string | null): Break | null {
    const gaps = this.#runs.map((run, i) => gapBefore(run, this.#runs[i - 1] ?? null, goneFileBetween));
    const all = [...this.#breaks, ...gaps.filter((gap) => gap !== null)].sort((a, b) => a.entry - b.entry);
    const [first, second] = all;
    if (first === undefined) return null;
    const both = first.how === changedBefore(first.file, first.entry).how && second?.entry === first.entry + 1;
    return both && second.how === changedBefore(second.file, second.entry).how ? changedEither(first) : first;
  }

  #joined(earlier: Run, later: Run): Run {
    if (later.previous !== earlier.lastSeal) this.note(changedBefore(earlier.lastFile, earlier.last));
    const { first, firstFile, previous } = earlier;
    return { ...later, first, firstFile, previous };
  }

  /** Before which run one that begins with this number belongs. */
  #placeOf(first: number): number {
    const at = this.#runs.findLastIndex((run) => run.first <= first);
    return at + 1;
  }
}

function gapBefore(
  after: Run,
  before: Run | null,
  goneFileBetween: (before: Run | null, after: Run) => string | null,
): Break | null {
  const from = (before?.last ?? 0) + 1;
  if (after.first > from)
    return missingBetween({ from, to: after.first - 1, before, after, goneFile: goneFileBetween(before, after) });
  return before === null && after.previous !== FIRST_PREVIOUS ? falseFirst(after) : null;
}

/** What is out of order about an entry that stands behind a run in the same file; null when it is only not the next. */
export function orderBreak(file: string, before: Run, number: number): Break | null {
  if (number > before.last) return null;
  return number === before.last ? twice(file, number) : behind(file, number, before.last);
}
