import { entriesInWords } from "./chainWords.ts";

/** Where a log ends, and the beginning of every seal in it, by number; what can't be read is not there. */
export interface Seals {
  readonly end: { readonly number: number; readonly seal: string } | null;
  readonly by: ReadonlyMap<number, number>;
}

/** The first 12 digits of a seal as a number: a log of a hundred thousand entries is remembered in a few megabytes. */
export const sealNumber = (seal: string): number => Number.parseInt(seal.slice(0, 12), 16);

/** What the log of a station holds that a copy does not: nothing, or from which entry to which, and whether the two differ before. */
export type Loss =
  | { readonly is: "nothing" }
  | { readonly is: "newer" | "diverged"; readonly from: number; readonly to: number };

/**
 * What would vanish from a station if a copy took its place.
 *
 * @param ofTheCopy the entries that tell of this very copy, which it can't hold itself: they are no loss
 */
export function lossOf(there: Seals, copy: Seals, ofTheCopy: ReadonlySet<number> = new Set()): Loss {
  const to = there.end?.number ?? 0;
  const differing = [...there.by]
    .filter(([number, seal]) => copy.by.get(number) !== seal && !ofTheCopy.has(number))
    .map(([number]) => number);
  if (differing.length === 0) return { is: "nothing" };
  const from = differing.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  return { is: from <= (copy.end?.number ?? 0) ? "diverged" : "newer", from, to };
}

/** "entries 12 to 14 of this station are not in the backup and would vanish from it". */
export function lossInWords(loss: Exclude<Loss, { is: "nothing" }>): string {
  const which = entriesInWords(loss.from, loss.to);
  return loss.is === "newer"
    ? `its log is newer than the backup: ${which} would vanish from it`
    : `its log is another one than the backup's: ${which} are not as in the backup and would vanish from it`;
}
