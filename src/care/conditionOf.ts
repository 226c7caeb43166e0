import type { Tally } from "../record/careLedger.ts";
import type { Sieve, SieveFitness, SieveState } from "../record/sieve.ts";
import { inspect } from "./inspection/inspect.ts";
import { referenceCheck } from "./reference/referenceCheck.ts";
import type { CommonFinding, TareFinding } from "./tare/finding.ts";
import type { TareWatch } from "./tare/tareWatch.ts";
import type { Counts } from "./use/counts.ts";
import { type Due, dueOf, type Schedule, USUAL_SCHEDULE } from "./use/due.ts";
import {
  type CareNote,
  lastComplete,
  lastLooks,
  lastMeasured,
  notesOf,
  type Standing,
  standingOf,
} from "./use/life.ts";

/** All that is known of a sieve's life. */
export interface SieveHistory {
  /** What it was used for since its latest complete inspection, or in all where there was none. */
  readonly used: Tally;
  /** The care log; entries of other sieves are passed over. */
  readonly care: readonly CareNote[];
  /** What the empty weighings tell of this sieve and of those weighed with it; null where none is known. */
  readonly watch: TareWatch | null;
  readonly schedule?: Schedule;
  /** When it was last weighed empty, in a recorded test or after a cleaning; absent or null: never. */
  readonly weighedAt?: string | null;
}

/** What may be said of a sieve before it is used. */
export interface Condition {
  readonly serial: string;
  readonly apertureUm: number;
  /** In the words of the test's own check: whether an overdue sieve invalidates is the product's choice. */
  readonly state: SieveFitness;
  readonly registered: SieveState;
  /** Why it is in this state. */
  readonly text: string;
  readonly due: Due;
  readonly counts: Counts;
  readonly tare: TareFinding | null;
  readonly together: CommonFinding | null;
  /** The day of a cleaning after which it was not weighed empty on record yet; null where there is none. */
  readonly cleanedOn: string | null;
  /** What to do, the most pressing first. */
  readonly advice: readonly string[];
}

/** What the latest reference check says of this sieve, where it is off. */
function referenceAdvice({ serial }: Sieve, care: readonly CareNote[]): string[] {
  const checks = notesOf(serial, care).flatMap((note) => (note.care.did === "reference check" ? [note.care] : []));
  const last = checks.at(-1);
  const own = last && referenceCheck(last).find((one) => one.serial === serial);
  if (own === undefined || own.result === "agrees" || own.result === "not judged") return [];
  return [`by the reference material ${own.text}: inspect it`];
}

/** A certificate that ran out is relied on all the same, and that is told. */
function certificateAdvice({ certificate }: Sieve, today: string): string[] {
  const due = certificate?.due;
  return due === undefined || today <= due
    ? []
    : [`its certificate was to be relied on until ${due}: have it certified again`];
}

const OUT_SINCE: Readonly<Record<SieveState, (since: string) => string>> = {
  "in service": (since) => `in service since ${since}`,
  cleaning: (since) => `cleaning since ${since}`,
  quarantine: (since) => `quarantine since ${since}`,
  retired: (since) => `retired since ${since}`,
};

function outText({ state, reason, since }: Standing): string {
  const told = since ? OUT_SINCE[state](since) : state;
  return reason ? `${told}: ${reason}` : told;
}

function stateOf(standing: Standing, faults: readonly string[], due: Due): Pick<Condition, "state" | "text"> {
  if (standing.state !== "in service") return { state: "out of service", text: outText(standing) };
  const [fault] = faults;
  if (fault !== undefined) return { state: "out of service", text: `failed its inspection: ${fault}` };
  if (due.state === "not due") return { state: "fit", text: `inspection not due: ${due.text}` };
  return { state: due.state, text: `inspection ${due.state}: ${due.text}` };
}

/** The moment from which on uses are counted: the latest complete inspection, else first use or certificate. */
const countedFrom = (sieve: Sieve, inspectedAt: string | undefined): string | null =>
  inspectedAt ?? sieve.firstUse ?? sieve.certificate?.day ?? null;

/**
 * A failed inspection is over once the sieve was returned to service after it, or what was found faulty was looked at anew;
 * but apertures that were measured and found wrong are not put right by a look, only by measuring again.
 */
function standingFaults(sieve: Sieve, care: readonly CareNote[]): readonly string[] {
  const own = notesOf(sieve.serial, care);
  const returned = own.findLastIndex((note) => note.care.did === "return to service");
  const since = own.slice(returned + 1);
  const looks = lastLooks(sieve.serial, since);
  const measured = lastMeasured(sieve.serial, since)?.inspection.measured;
  return inspect(sieve, { did: "inspection", serial: sieve.serial, looks, ...(measured ? { measured } : {}) }).faults;
}

/** The day of the latest cleaning, where the sieve has not been weighed since. */
function cleanedSince({ serial }: Sieve, { care, weighedAt = null }: SieveHistory): string | null {
  const last = notesOf(serial, care).findLast((note) => note.care.did === "cleaning");
  if (last === undefined) return null;
  const isSince = weighedAt === null || Date.parse(last.at) > Date.parse(weighedAt);
  return isSince ? last.at.slice(0, 10) : null;
}

/** What its empty masses advise; grains that were brushed out meanwhile are not asked for again. */
function tareAdvice({ state, text, advice }: TareFinding, cleanedOn: string | null): string[] {
  if (advice === null) return [];
  const isOver = cleanedOn !== null && (state === "caught" || state === "step up");
  return [`${text}: ${isOver ? `cleaned since (${cleanedOn}), ${WEIGHED_NEXT}` : advice}`];
}

/** When a cleaning shows in the empty masses. */
export const WEIGHED_NEXT = "weighed again with the next test on record";

/**
 * The condition of one sieve on one day: whether it may be used, what it was used for since its last inspection, when
 * the next is due, what its empty masses tell, and what to do.
 *
 * @param today ISO date of the station
 * @source common practice, no source; the parts name theirs
 */
export function conditionOf(sieve: Sieve, history: SieveHistory, today: string): Condition {
  const { care } = history;
  const standing = standingOf(sieve, care);
  const since = countedFrom(sieve, lastComplete(sieve.serial, care)?.at)?.slice(0, 10) ?? null;
  const counts = { ...history.used, since };
  const due = dueOf(counts, history.schedule ?? USUAL_SCHEDULE, today);
  const tare = history.watch?.sieves.find((one) => one.serial === sieve.serial) ?? null;
  const together = history.watch?.together ?? null;
  const cleanedOn = cleanedSince(sieve, history);
  const { state, text } = stateOf(standing, standingFaults(sieve, care), due);
  const advice = [
    ...(state === "due" || state === "overdue" ? [`inspect it: ${due.text}`] : []),
    ...(together ? [`${together.text}: ${together.advice}`] : []),
    ...(tare === null ? [] : tareAdvice(tare, cleanedOn)),
    ...referenceAdvice(sieve, care),
    ...(standing.state === "retired" ? [] : certificateAdvice(sieve, today)),
  ];
  const { serial, apertureUm } = sieve;
  return {
    serial,
    apertureUm,
    state,
    registered: standing.state,
    text,
    due,
    counts,
    tare,
    together,
    cleanedOn,
    advice,
  };
}
