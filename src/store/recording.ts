import canonicalize from "canonicalize";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { isAmendment } from "../record/amendmentRefusal.ts";
import type { LogEntry, NewEntry } from "../record/logEntry.ts";
import { inZone } from "../record/moment.ts";
import { itemName } from "../record/register.ts";
import type { TestRecord } from "../record/test.ts";
import { report } from "./cabinet.ts";
import type { Drawers } from "./drawers.ts";
import { filingDay } from "./filingDay.ts";
import { OnRecord } from "./onRecord.ts";
import { isMatter } from "./openMatters.ts";
import { type PermittedEntry, permitted } from "./operatorsPermit.ts";

export type { Drawers } from "./drawers.ts";

/** Entries of one day that wait to be filed together; `count` counts those filed before them as well. */
interface Waiting {
  day: string;
  readonly entries: NewEntry[];
  count: number;
}

const UNCHECKED = "initials are not checked by PIN at this station";

/**
 * Records entries: day file, head, index, then the drafts go. A crash in between leaves what the next opening puts right.
 * Once the day is written the entries are recorded, and what fails after that is told as a problem.
 */
export class Recording {
  readonly #drawers: Drawers;
  readonly #onRecord: OnRecord;
  readonly #stationTime: (at: string) => string;

  constructor(drawers: Drawers) {
    this.#drawers = drawers;
    this.#onRecord = new OnRecord(drawers);
    this.#stationTime = inZone(drawers.station.timeZone);
  }

  async one(asked: NewEntry): Promise<Outcome<LogEntry>> {
    const ready = await this.#ready();
    if (!ready.ok) return ready;
    const admitted = await this.#admitted(asked);
    if (!admitted.ok) return admitted;
    const { entry, day } = admitted.value;
    const unfit = await this.#onRecord.refusal(entry);
    if (unfit !== null) return refused(unfit);
    const earlier = entry.kind === "test" ? await this.#onRecord.earlier(entry.test) : null;
    if (earlier !== null && entry.kind === "test") return this.#again(earlier, entry.test);
    const filed = await this.#file(day, [entry]);
    return filed.ok ? onlyOne(filed.value) : filed;
  }

  /** Entries of one day after another go together; tests that are recorded already are passed over. */
  async all(entries: Iterable<NewEntry>): Promise<Outcome<number>> {
    const ready = await this.#ready();
    if (!ready.ok) return ready;
    const run: Waiting = { day: "", entries: [], count: 0 };
    for (const asked of entries) {
      const taken = await this.#joined(run, asked);
      if (!taken.ok) return taken;
    }
    const filed = await this.#file(run.day, run.entries);
    return filed.ok ? accepted(run.count) : filed;
  }

  /** One more in the run, which is filed first where this one goes to another day or is about what the run may hold. */
  async #joined(run: Waiting, asked: NewEntry): Promise<Outcome<void>> {
    const admitted = await this.#admitted(asked);
    if (!admitted.ok) return admitted;
    const { entry, day } = admitted.value;
    if (run.day !== day || isAmendment(entry) || isMatter(entry) || restsOnRegister(entry, run.entries)) {
      const filed = await this.#file(run.day, run.entries.splice(0));
      if (!filed.ok) return filed;
    }
    const unfit = await this.#onRecord.refusal(entry);
    if (unfit !== null) return refused(unfit);
    run.day = day;
    if (await this.#isKnown(entry, run.entries)) return accepted(undefined);
    run.entries.push(entry);
    run.count += 1;
    return accepted(undefined);
  }

  /** What the store tells of itself, asked of nobody. */
  async own(entries: readonly PermittedEntry[]): Promise<Outcome<readonly LogEntry[]>> {
    const ready = await this.#ready();
    if (!ready.ok) return ready;
    const [first] = entries;
    const day = first === undefined ? accepted("") : await this.#dayOf(first.at);
    return day.ok ? this.#file(day.value, entries) : day;
  }

  /** A log begins with whether its station asks people to sign on. */
  #declared(entries: readonly NewEntry[]): readonly NewEntry[] {
    const { log, declares } = this.#drawers;
    const [first] = entries;
    const said = !declares || log.months().length > 0 || entries.some(({ kind }) => kind === "station declared");
    if (said || first === undefined) return entries;
    const { at, by } = first;
    return [{ kind: "station declared", at, by, signOn: "none", reason: UNCHECKED }, ...entries];
  }

  /** Takes in what a failed write may have left behind; nothing is recorded before that is known. */
  async #ready(): Promise<Outcome<void>> {
    const { cabinet, log, index, amended } = this.#drawers;
    const why = await cabinet.refusal();
    if (why !== null) return refused(why);
    await amended.prepare();
    const settled = await log.settle();
    if (!settled.ok) return settled;
    if (settled.value !== null) await index.follow(settled.value.day);
    return accepted(undefined);
  }

  /** The entry as whoever is signed on may have it recorded, and the day that it is filed under. */
  async #admitted(asked: NewEntry): Promise<Outcome<{ readonly entry: PermittedEntry; readonly day: string }>> {
    const entry = permitted(asked, this.#drawers.operators);
    if (!entry.ok) return entry;
    const day = await this.#dayOf(asked.at);
    return day.ok ? accepted({ entry: entry.value, day: day.value }) : day;
  }

  #dayOf(at: string): Promise<Outcome<string>> {
    return filingDay(at, this.#drawers.station, this.#drawers.cabinet);
  }

  async #file(day: string, entries: readonly NewEntry[]): Promise<Outcome<readonly LogEntry[]>> {
    const { log, index, amended, ledger, station } = this.#drawers;
    if (entries.length === 0) return accepted([]);
    const inTime = this.#declared(entries).map((entry) => ({ ...entry, at: this.#stationTime(entry.at) }));
    const recorded = await log.append(day, inTime, station.station);
    if (!recorded.ok) return recorded;
    const gone = recorded.value.map((entry) => this.#dropDraft(entry));
    void ledger.follow(recorded.value);
    await index.follow(day);
    if (recorded.value.some((entry) => isAmendment(entry) || isMatter(entry))) await amended.follow(day);
    await Promise.all(gone);
    return recorded;
  }

  async #dropDraft(entry: LogEntry): Promise<void> {
    if (entry.kind !== "test" && entry.kind !== "test ended") return;
    const dropped = await this.#drawers.drafts.retire(entry.test.testId);
    if (!dropped.ok)
      report(this.#drawers.cabinet, `${dropped.reason}. The test is recorded; its draft goes at the next start`);
  }

  async #isKnown(entry: NewEntry, waiting: readonly NewEntry[]): Promise<boolean> {
    if (entry.kind !== "test") return false;
    const { testId } = entry.test;
    const isWaiting = waiting.some((other) => other.kind === "test" && other.test.testId === testId);
    return isWaiting || (await this.#onRecord.earlier(entry.test)) !== null;
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

/** Whether an entry is about what one that waits to be filed registers. */
function restsOnRegister(entry: NewEntry, waiting: readonly NewEntry[]): boolean {
  if (entry.kind !== "care" && entry.kind !== "registered") return false;
  return waiting.some((one) => {
    if (one.kind !== "registered") return false;
    if (entry.kind === "care") return true;
    const itsSieve = entry.item.schema === "sievewright.stack/1" && one.item.schema === "sievewright.sieve/1";
    return itsSieve || itemName(one.item) === itemName(entry.item);
  });
}

function onlyOne(entries: readonly LogEntry[]): Outcome<LogEntry> {
  const entry = entries.at(-1);
  if (entry === undefined) throw new Error("the log took one entry and gave none back");
  return accepted(entry);
}
