import type { Outcome } from "../entry/outcome.ts";
import type { Draft } from "../record/draft.ts";
import type { IndexRow, LoggedEvent, Matter } from "../record/indexRow.ts";
import type { LogEntry, NewEntry, TestEntry } from "../record/logEntry.ts";
import type { MonthWords } from "../record/monthWords.ts";
import type { Product } from "../record/product.ts";
import type { ProductDraft, Release } from "../record/productDraft.ts";
import type { Program } from "../record/program.ts";
import type { Sieve, Stack } from "../record/sieve.ts";
import type { Station } from "../record/station.ts";
import type { TestHistory } from "../record/versions.ts";
import type { CareDesk } from "./careDesk.ts";
import type { Credentials, OperatorsDesk, Session } from "./operatorsDesk.ts";

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
  /** Whether whoever had the station open when this one came second was a process here that has ended. */
  writerEnded(): Promise<boolean>;
  /** What could not be read or had to be put right: what happened and what to do. Grows while the store is open. */
  readonly problems: readonly string[];

  /** Who may work here, and whether they must sign on. What a role doesn't allow is refused by `record` itself. */
  readonly operators: OperatorsDesk;
  /** Whoever is signed on; null while nobody is. */
  readonly session: Session | null;
  signOn(who: Credentials): Promise<Outcome<Session>>;
  signOff(event: "off" | "idle"): Promise<Outcome<void>>;

  /** Tests in progress, the one begun first in front. Also what could not be saved lately. */
  drafts(): readonly Draft[];
  saveDraft(draft: Draft): Promise<Outcome<void>>;
  dropDraft(testId: string): Promise<Outcome<void>>;

  /** Numbers, dates, seals and files the entry; the draft of a test recorded or ended goes. The same test again gives its entry again. */
  record(entry: NewEntry): Promise<Outcome<LogEntry>>;
  /** The same for many at once (imports, demo): each day and month is written once per run of entries. */
  recordAll(entries: Iterable<NewEntry>): Promise<Outcome<number>>;

  /** Months that have a log, newest first: "2026-11". */
  indexMonths(): readonly string[];
  /** Oldest first, each test as it is to be read today: the figures of its latest version, and what became of it. */
  indexRows(month: string): Promise<readonly IndexRow[]>;
  /** What the rows of a month say, for the months of which that is known: what is looked for lies in no other of them. */
  monthWords(): Promise<ReadonlyMap<string, MonthWords>>;
  /** Rows of whole months, newest first, until there are this many. */
  recentRows(atLeast: number): Promise<readonly IndexRow[]>;
  entriesOfDay(day: string): Promise<readonly LogEntry[]>;
  entry(day: string, number: number): Promise<Outcome<LogEntry>>;
  /** The original entry; what later entries say of it is in its history. */
  testEntry(row: Pick<IndexRow, "day" | "number">): Promise<Outcome<TestEntry>>;
  history(row: Pick<IndexRow, "day" | "number">): Promise<Outcome<TestHistory>>;
  /** Open holds and the control limits of all months, in the order of the log. */
  matters(): Promise<readonly Matter[]>;
  /** Where another process writes this station: learns of what it has recorded meanwhile. */
  catchUp(): Promise<void>;
  /** What happened in a month besides tests: holds, changes of the line, handovers, control limits; oldest first. */
  events(month: string): Promise<readonly LoggedEvent[]>;
  /** Where the log ends; null while it is empty. */
  head(): { readonly number: number; readonly seal: string } | null;
  /** The day that the last entry went to, as it was when the station was opened. */
  readonly atOpening: readonly LogEntry[];
  /** Draws every month's index from the log again. */
  reindex(): Promise<Outcome<{ readonly months: number; readonly entries: number }>>;

  /** The library is read when first asked for. */
  products(): Promise<ProductShelf>;
  addProduct(product: Product, loading: Loading): Promise<Outcome<"added" | "already there">>;
  /** Products being written, by code; no test can be set out with one. */
  productDrafts(): Promise<readonly ProductDraft[]>;
  saveProductDraft(draft: ProductDraft): Promise<Outcome<void>>;
  /** What became of the draft's file. */
  discardProductDraft(code: string): Promise<Outcome<string>>;
  /** Makes a revision of the draft: the log first, then the shelf, then the draft goes. */
  publishProduct(code: string, release: Release): Promise<Outcome<Product>>;
  programs(): Promise<readonly Program[]>;
  sieves(): Promise<readonly Sieve[]>;
  stacks(): Promise<readonly Stack[]>;
  /** Told to the log first; what is there under the same code is not replaced. */
  addProgram(program: Program, loading: Loading): Promise<Outcome<"added" | "already there">>;
  addStack(stack: Stack, loading: Loading): Promise<Outcome<"added" | "already there">>;

  /** Sieves, balances and weights: what is registered, what was done to them, how they stand. */
  readonly care: CareDesk;

  /** Keeps a page for printing as a new file in `pages/`; answers with where it lies. */
  keepPage(name: string, text: string): Promise<Outcome<string>>;

  /** Waits for what is being written and gives the station free. */
  close(): Promise<void>;
}
