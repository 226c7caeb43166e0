import type { Outcome } from "../entry/outcome.ts";
import type { Draft } from "../record/draft.ts";
import type { IndexRow } from "../record/indexRow.ts";
import type { LogEntry, NewEntry, TestEntry } from "../record/logEntry.ts";
import type { Product } from "../record/product.ts";
import type { Program } from "../record/program.ts";
import type { Sieve, Stack } from "../record/sieve.ts";
import type { Station } from "../record/station.ts";

/** All that a station has loaded of its products. */
export interface ProductShelf {
  /** In alphabetical order. */
  readonly codes: readonly string[];
  /** Lowest first; none for an unknown code. */
  revisions(code: string): readonly Product[];
  /** The highest revision whose `effective` day has come (without one: at once); null when there is none. */
  inForce(code: string, day: string): Product | null;
}

/** Where a product came from, for the log. */
export interface Loading {
  readonly fromPath: string;
  readonly bytesSha256: string;
  readonly by: string;
  readonly at: string;
}

/**
 * The files of one station. What is refused is refused in words for the operator (what, where, what to do); an accepted
 * change is on disk, flushed, before its promise resolves. Nothing in here throws for a full or faulty disk.
 */
export interface Store {
  readonly station: Station;
  readonly folder: string;
  /** Null while this process may write; else why it may not. Can turn from null to a reason, never back. */
  readonly readOnly: string | null;
  /** What could not be read or had to be put right: what happened and what to do. Grows while the store is open. */
  readonly problems: readonly string[];

  /** Tests in progress, the one begun first in front. Also what could not be saved lately. */
  drafts(): readonly Draft[];
  saveDraft(draft: Draft): Promise<Outcome<void>>;
  dropDraft(testId: string): Promise<Outcome<void>>;

  /** Numbers, dates, seals and files the entry; a test's draft goes. The same test again gives its entry again. */
  record(entry: NewEntry): Promise<Outcome<LogEntry>>;
  /** The same for many at once (imports, demo): each day and month is written once per run of entries. */
  recordAll(entries: Iterable<NewEntry>): Promise<Outcome<number>>;

  /** Months that have a log, newest first: "2026-11". */
  indexMonths(): readonly string[];
  /** Oldest first. */
  indexRows(month: string): Promise<readonly IndexRow[]>;
  /** Rows of whole months, newest first, until there are this many. */
  recentRows(atLeast: number): Promise<readonly IndexRow[]>;
  entriesOfDay(day: string): Promise<readonly LogEntry[]>;
  entry(day: string, number: number): Promise<Outcome<LogEntry>>;
  testEntry(row: Pick<IndexRow, "day" | "number">): Promise<Outcome<TestEntry>>;
  /** Draws every month's index from the log again. */
  reindex(): Promise<Outcome<{ readonly months: number; readonly entries: number }>>;

  /** The library is read when first asked for. */
  products(): Promise<ProductShelf>;
  addProduct(product: Product, loading: Loading): Promise<Outcome<"added" | "already there">>;
  programs(): Promise<readonly Program[]>;
  sieves(): Promise<readonly Sieve[]>;
  stacks(): Promise<readonly Stack[]>;
  addProgram(program: Program): Promise<Outcome<void>>;
  addSieve(sieve: Sieve): Promise<Outcome<void>>;
  addStack(stack: Stack): Promise<Outcome<void>>;

  /** Waits for what is being written and gives the station free. */
  close(): Promise<void>;
}
