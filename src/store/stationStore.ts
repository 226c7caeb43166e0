import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { Draft } from "../record/draft.ts";
import { day as dayField } from "../record/fields.ts";
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
import { diskTrouble } from "./diskWords.ts";
import type { Library } from "./library.ts";
import { holderEnded, type Lock } from "./lock.ts";
import { WordsOfMonths } from "./monthWords.ts";
import { OperatorsOf } from "./operators.ts";
import type { Credentials, Session } from "./operatorsDesk.ts";
import { keepPage } from "./pages.ts";
import { ProductDrafts } from "./productDrafts.ts";
import { queue } from "./queue.ts";
import { type Drawers, Recording } from "./recording.ts";
import type { Loading, ProductShelf, Store } from "./store.ts";

/** The store of an opened folder. Changes of log and library are made one after another; drafts each in their own queue. */
export class StationStore implements Store {
  readonly station: Station;
  readonly folder: string;
  readonly problems: readonly string[];
  readonly atOpening: readonly LogEntry[];
  readonly operators: OperatorsOf;
  readonly #drawers: Drawers;
  readonly #recording: Recording;
  readonly #words: WordsOfMonths;
  readonly #library: Library;
  readonly #productDrafts: ProductDrafts;
  /** Publications that a crash cut short, carried to their end once, before the library is first shown. */
  #settled: Promise<unknown> | null = null;
  readonly #lock: Outcome<Lock>;
  readonly #inTurn = queue();

  constructor(drawers: Drawers, lock: Outcome<Lock>) {
    this.station = drawers.station;
    this.folder = drawers.cabinet.folder;
    this.problems = drawers.cabinet.problems;
    this.atOpening = drawers.log.written()?.entries ?? [];
    this.#drawers = drawers;
    this.#words = new WordsOfMonths(drawers.cabinet);
    this.#recording = new Recording(drawers);
    this.#library = drawers.library;
    this.#productDrafts = new ProductDrafts(drawers, this.#library, (entry) => this.#recording.one(entry));
    this.#lock = lock;
    this.operators = new OperatorsOf(drawers.operators, {
      inTurn: (otherwise, step) => this.#change(otherwise, step),
      record: (entries) => this.#recording.own(entries),
    });
    if (this.readOnly === null) drawers.findings.onFound(() => void this.#tellFindings());
  }

  get care(): CareDesk {
    return this.#drawers.care;
  }

  get session(): Session | null {
    return this.operators.session;
  }

  signOn(who: Credentials): Promise<Outcome<Session>> {
    return this.operators.signOn(who);
  }

  signOff(event: "off" | "idle"): Promise<Outcome<void>> {
    return this.operators.signOff(event);
  }

  get readOnly(): string | null {
    return this.#drawers.cabinet.readOnly();
  }

  async writerEnded(): Promise<boolean> {
    const { cabinet } = this.#drawers;
    return cabinet.readOnly() !== null && (await holderEnded(cabinet.folder, cabinet.disk));
  }

  drafts(): readonly Draft[] {
    return this.#drawers.drafts.all();
  }

  saveDraft(draft: Draft): Promise<Outcome<void>> {
    return this.#drawers.drafts.save(draft);
  }

  dropDraft(testId: string): Promise<Outcome<void>> {
    return this.#drawers.drafts.drop(testId);
  }

  record(entry: NewEntry): Promise<Outcome<LogEntry>> {
    return this.#change("the entry is not recorded", () => this.#recording.one(entry));
  }

  recordAll(entries: Iterable<NewEntry>): Promise<Outcome<number>> {
    return this.#change("the entries are not all recorded", () => this.#recording.all(entries));
  }

  indexMonths(): readonly string[] {
    return this.#drawers.log.months();
  }

  async indexRows(month: string): Promise<readonly IndexRow[]> {
    const rows = await this.#drawers.amended.rows(month);
    const isOver = month < (this.indexMonths()[0] ?? "");
    if (isOver && this.#drawers.index.isWhole(month)) void this.#words.take(month, rows);
    return rows;
  }

  async monthWords(): Promise<ReadonlyMap<string, MonthWords>> {
    const amended = await this.#drawers.amended.amendedRows();
    return amended === null ? new Map() : this.#words.all(amended);
  }

  async recentRows(atLeast: number): Promise<readonly IndexRow[]> {
    const recent: IndexRow[] = [];
    for (const month of this.indexMonths()) {
      if (recent.length >= atLeast) break;
      recent.push(...[...(await this.indexRows(month))].reverse());
    }
    return recent;
  }

  async entriesOfDay(day: string): Promise<readonly LogEntry[]> {
    if (!dayField.safeParse(day).success) return [];
    const found = await this.#drawers.log.day(day);
    return found.is === "read" ? found.content.entries : [];
  }

  async entry(day: string, number: number): Promise<Outcome<LogEntry>> {
    const entry = (await this.entriesOfDay(day)).find((one) => one.number === number);
    return entry === undefined ? refused(`the log holds no entry ${number} of ${day}`) : accepted(entry);
  }

  async testEntry(row: Pick<IndexRow, "day" | "number">): Promise<Outcome<TestEntry>> {
    const entry = await this.entry(row.day, row.number);
    if (!entry.ok) return entry;
    return entry.value.kind === "test"
      ? accepted(entry.value)
      : refused(`entry ${row.number} of ${row.day} is no test`);
  }

  async history(row: Pick<IndexRow, "day" | "number">): Promise<Outcome<TestHistory>> {
    const entry = await this.testEntry(row);
    return entry.ok ? this.#drawers.amended.history(entry.value) : entry;
  }

  catchUp(): Promise<void> {
    return this.#drawers.log.catchUp();
  }

  matters(): Promise<readonly Matter[]> {
    return this.#drawers.amended.matters();
  }

  async events(month: string): Promise<readonly LoggedEvent[]> {
    return (await this.#drawers.index.month(month)).events ?? [];
  }

  head(): { number: number; seal: string } | null {
    const { number, seal } = this.#drawers.log.end();
    return number === 0 ? null : { number, seal };
  }

  reindex(): Promise<Outcome<{ months: number; entries: number }>> {
    return this.#change("the index is not drawn again", async () => {
      let entries = 0;
      const months = this.indexMonths();
      for (const month of months) {
        entries += await this.#drawers.index.redraw(month);
        await this.indexRows(month); // while it is at hand: what it says is kept for the next search
      }
      await this.#drawers.amended.redraw();
      await this.#drawers.amended.settled();
      await this.#drawers.ledger.redraw();
      await this.#drawers.ledger.settled();
      return accepted({ months: months.length, entries });
    });
  }

  async products(): Promise<ProductShelf> {
    await this.#settle();
    return this.#library.products();
  }

  async productDrafts(): Promise<readonly ProductDraft[]> {
    await this.#settle();
    return this.#productDrafts.list();
  }

  saveProductDraft(draft: ProductDraft): Promise<Outcome<void>> {
    return this.#change("the draft is not saved", () => this.#productDrafts.save(draft));
  }

  discardProductDraft(code: string): Promise<Outcome<string>> {
    return this.#change("the draft is still there", () => this.#productDrafts.discard(code));
  }

  publishProduct(code: string, release: Release): Promise<Outcome<Product>> {
    return this.#change("the product is not published", () => this.#productDrafts.publish(code, release));
  }

  addProduct(product: Product, loading: Loading): Promise<Outcome<"added" | "already there">> {
    return this.#change("the product is not loaded", () =>
      this.#library.addProduct(product, loading, (entry) => this.#recording.one(entry)),
    );
  }

  programs(): Promise<readonly Program[]> {
    return this.#library.programs.list();
  }

  sieves(): Promise<readonly Sieve[]> {
    return this.#library.sieves.list();
  }

  stacks(): Promise<readonly Stack[]> {
    return this.#library.stacks.list();
  }

  addProgram(program: Program, loading: Loading): Promise<Outcome<"added" | "already there">> {
    return this.#load("the program is not kept", () =>
      this.#library.addProgram(program, loading, (entry) => this.#recording.one(entry)),
    );
  }

  addStack(stack: Stack, loading: Loading): Promise<Outcome<"added" | "already there">> {
    return this.#load("the stack is not kept", () =>
      this.#library.addStack(stack, loading, (entry) => this.#recording.one(entry)),
    );
  }

  keepPage(name: string, text: string): Promise<Outcome<string>> {
    return this.#change("the page is not kept", () => keepPage(this.#drawers.cabinet, name, text));
  }

  async close(): Promise<void> {
    if (this.session !== null) await this.signOff("off");
    await this.#inTurn(async () => undefined);
    await this.#drawers.drafts.settled();
    await this.#drawers.amended.settled();
    await this.#words.settled();
    await this.#drawers.ledger.settled();
    this.#drawers.cabinet.becomeReadOnly("this station is closed");
    if (this.#lock.ok) await this.#lock.value.release();
  }

  /** What was found amiss goes into the log, each finding once. */
  #tellFindings(): Promise<Outcome<void>> {
    const { findings, now } = this.#drawers;
    return this.#change("the finding is not recorded", async () => {
      await findings.tell((found) => this.#recording.own([{ kind: "finding", at: now(), by: "program", found }]));
      return accepted(undefined);
    });
  }

  #settle(): Promise<unknown> {
    this.#settled ??= this.#change("", async () => accepted(await this.#productDrafts.settle()));
    return this.#settled;
  }

  #load<T>(otherwise: string, step: () => Promise<Outcome<T>>): Promise<Outcome<T>> {
    const why = this.operators.refusal("load a program or stack");
    return why === null ? this.#change(otherwise, step) : Promise.resolve(refused(why));
  }

  #change<T>(otherwise: string, step: () => Promise<Outcome<T>>): Promise<Outcome<T>> {
    return this.#inTurn(async () => {
      try {
        const why = await this.#drawers.cabinet.refusal();
        return why === null ? await step() : refused(why);
      } catch (fault) {
        return refused(diskTrouble(fault, otherwise));
      }
    });
  }
}
