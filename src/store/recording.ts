import canonicalize from "canonicalize";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { LogEntry, NewEntry } from "../record/logEntry.ts";
import type { Station } from "../record/station.ts";
import type { TestRecord } from "../record/test.ts";
import { type Cabinet, report } from "./cabinet.ts";
import type { Drafts } from "./drafts.ts";
import { filingDay } from "./filingDay.ts";
import { monthOf } from "./layout.ts";
import type { Log } from "./log.ts";
import type { MonthIndex } from "./monthIndex.ts";

/** The drawers that a record goes through. */
export interface Drawers {
  readonly cabinet: Cabinet;
  readonly station: Station;
  readonly drafts: Drafts;
  readonly log: Log;
  readonly index: MonthIndex;
}

/**
 * Records entries: day file, head, index, then the drafts go. A crash in between leaves what the next opening puts right.
 * Once the day is written the entries are recorded, and what fails after that is told as a problem.
 */
export class Recording {
  readonly #drawers: Drawers;

  constructor(drawers: Drawers) {
    this.#drawers = drawers;
  }

  async one(entry: NewEntry): Promise<Outcome<LogEntry>> {
    const ready = await this.#ready();
    if (!ready.ok) return ready;
    const day = await this.#dayOf(entry.at);
    if (!day.ok) return day;
    const earlier = entry.kind === "test" ? await this.#earlier(entry.test) : null;
    if (earlier !== null && entry.kind === "test") return this.#again(earlier, entry.test);
    const filed = await this.#file(day.value, [entry]);
    return filed.ok ? onlyOne(filed.value) : filed;
  }

  /** Entries of one day after another go together; tests that are recorded already are passed over. */
  async all(entries: Iterable<NewEntry>): Promise<Outcome<number>> {
    const ready = await this.#ready();
    if (!ready.ok) return ready;
    let count = 0;
    let run: { day: string; entries: NewEntry[] } | null = null;
    for (const entry of entries) {
      const day = await this.#dayOf(entry.at);
      if (!day.ok) return day;
      if (run !== null && run.day !== day.value) {
        const filed = await this.#file(run.day, run.entries);
        if (!filed.ok) return filed;
        run = null;
      }
      run ??= { day: day.value, entries: [] };
      if (await this.#isKnown(entry, run.entries)) continue;
      run.entries.push(entry);
      count += 1;
    }
    const filed = run === null ? accepted([]) : await this.#file(run.day, run.entries);
    return filed.ok ? accepted(count) : filed;
  }

  /** Takes in what a failed write may have left behind; nothing is recorded before that is known. */
  async #ready(): Promise<Outcome<void>> {
    const { cabinet, log, index } = this.#drawers;
    const why = await cabinet.refusal();
    if (why !== null) return refused(why);
    const settled = await log.settle();
    if (!settled.ok) return settled;
    if (settled.value !== null) await index.follow(settled.value.day);
    return accepted(undefined);
  }

  #dayOf(at: string): Promise<Outcome<string>> {
    return filingDay(at, this.#drawers.station, this.#drawers.cabinet);
  }

  async #file(day: string, entries: readonly NewEntry[]): Promise<Outcome<readonly LogEntry[]>> {
    const { log, index, station } = this.#drawers;
    if (entries.length === 0) return accepted([]);
    const recorded = await log.append(day, entries, station.station);
    if (!recorded.ok) return recorded;
    const gone = recorded.value.map((entry) => this.#dropDraft(entry));
    await index.follow(day);
    await Promise.all(gone);
    return recorded;
  }

  async #dropDraft(entry: LogEntry): Promise<void> {
    if (entry.kind !== "test") return;
    const dropped = await this.#drawers.drafts.retire(entry.test.testId);
    if (!dropped.ok)
      report(this.#drawers.cabinet, `${dropped.reason}. The test is recorded; its draft goes at the next start`);
  }

  async #isKnown(entry: NewEntry, waiting: readonly NewEntry[]): Promise<boolean> {
    if (entry.kind !== "test") return false;
    const { testId } = entry.test;
    const isWaiting = waiting.some((other) => other.kind === "test" && other.test.testId === testId);
    return isWaiting || (await this.#earlier(entry.test)) !== null;
  }

  /** The entry that a test has already; null when it has none. */
  async #earlier({ testId, startedAt }: TestRecord): Promise<LogEntry | null> {
    const { log, index } = this.#drawers;
    const isIt = (entry: LogEntry): boolean => entry.kind === "test" && entry.test.testId === testId;
    const atHand = log.written()?.entries.find(isIt);
    if (atHand !== undefined) return atHand;
    const begun = await this.#dayOf(startedAt);
    if (!begun.ok) return null;
    for (const month of log.months().filter((later) => later >= monthOf(begun.value))) {
      const row = (await index.rows(month)).find((one) => one.testId === testId);
      const found = row === undefined ? null : await log.day(row.day);
      const entry = found?.is === "read" ? found.content.entries.find(isIt) : undefined;
      if (entry !== undefined) return entry;
    }
    return null;
  }

  /** A test recorded a second time is fine when nothing in it has changed: a second try, or a crash that came between. */
  async #again(entry: LogEntry, test: TestRecord): Promise<Outcome<LogEntry>> {
    const same = entry.kind === "test" && canonicalize(entry.test) === canonicalize(test);
    if (!same)
      return refused(
        `test ${test.testId} is recorded already, as entry ${entry.number} of ${entry.day}, with other content. Start a new test`,
      );
    await this.#dropDraft(entry);
    return accepted(entry);
  }
}

function onlyOne(entries: readonly LogEntry[]): Outcome<LogEntry> {
  const [entry] = entries;
  if (entry === undefined) throw new Error("the log took one entry and gave none back");
  return accepted(entry);
}
