import type { AmendedTest, AmendmentRef, IndexRow } from "../record/indexRow.ts";
import { standingOf } from "../record/versions.ts";
import type { AmendedContent } from "./amendedFile.ts";
import { type Matters, mattersInOrder } from "./openMatters.ts";

/** What is known of amended tests: the later entries by the month that they lie in, the tests by their number. */
export interface Known extends Matters {
  readonly months: Map<string, readonly AmendmentRef[]>;
  /** Months of which not all could be read: what follows from them is not written down, and they are looked at again. */
  readonly unread: Set<string>;
  readonly tests: Map<number, AmendedTest>;
  /** A month lost what was taken from it: everything is to be drawn again. */
  isStale: boolean;
  /** Where the log ended when this was known, and the time of the youngest file that it was drawn from, in ms. */
  head: AmendedContent["head"];
  asOfMs: number;
}

export const NOTHING = (): Known => ({
  months: new Map(),
  unread: new Set(),
  tests: new Map(),
  matters: new Map(),
  seen: new Map(),
  isStale: false,
  head: { number: 0, day: null },
  asOfMs: 0,
});

export function keepDrawn(tests: Map<number, AmendedTest>, drawn: ReadonlyMap<number, AmendedTest | null>): void {
  for (const [number, test] of drawn)
    if (test === null) tests.delete(number);
    else tests.set(number, test);
}

export const saidIn = ({ months, tests, matters }: Known): object => ({
  months: [...months].filter(([, refs]) => refs.length > 0).sort(([a], [b]) => (a < b ? -1 : 1)),
  tests: [...tests.values()].sort((a, b) => a.row.number - b.row.number),
  matters: mattersInOrder(matters),
});

export const numbersOf = (refs: readonly AmendmentRef[]): string => refs.map(({ number }) => number).join(" ");

/** A row as it is to be read; of a test whose later entries can't all be read now, at least how it stands by their kinds. */
export function rowToday(row: IndexRow, { months, unread, tests }: Known): IndexRow {
  const amended = tests.get(row.number);
  const known = amended?.row.testId === row.testId ? amended.row : row;
  if (unread.size === 0) return known;
  const later = [...months.values()].flat().filter(({ of }) => of.number === row.number && of.testId === row.testId);
  if (later.length === 0) return known;
  return { ...known, amended: standingOf({ later: later.toSorted((a, b) => a.number - b.number) }) };
}
