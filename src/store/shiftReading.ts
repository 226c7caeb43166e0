import { careMatters } from "../care/matters.ts";
import type { IndexRow, LoggedEvent } from "../record/indexRow.ts";
import type { LogEntry } from "../record/logEntry.ts";
import { type Handover, handoverOf } from "../shift/handover.ts";
import type { Facts, LineEvent } from "../shift/lineState.ts";
import { lateDuring } from "../shift/sampling.ts";
import type { Shift } from "../shift/schedule.ts";
import { monthOf } from "./layout.ts";
import type { Store } from "./store.ts";

const DAY_MS = 86_400_000;
const dayAt = (ms: number): string => new Date(ms).toISOString().slice(0, 10);

/** Production days that entries of a shift can be filed under, whatever the clock did: a day more on either side. */
function daysAround({ began, ends }: Pick<Shift, "began" | "ends">): readonly string[] {
  const days: string[] = [];
  for (let ms = Date.parse(began) - DAY_MS; ms <= Date.parse(ends) + DAY_MS; ms += DAY_MS / 2) days.push(dayAt(ms));
  return [...new Set(days)];
}

/** What the sampling plan has to go by: rows and changes of the line of the months since a day. */
export async function factsSince(
  store: Store,
  day: string,
): Promise<Omit<Facts, "tests"> & { readonly tests: readonly IndexRow[] }> {
  const months = store.indexMonths().filter((month) => month >= monthOf(day));
  const rows: IndexRow[] = [];
  const events: LoggedEvent[] = [];
  for (const month of months.toReversed()) {
    rows.push(...(await store.indexRows(month)));
    events.push(...(await store.events(month)));
  }
  return { tests: rows, events: events.filter((event): event is LineEvent => event.kind === "line adjusted") };
}

/** How far back a line's state and a sampling rule are looked for. */
const DAYS_BACK = 32;

/** What the plan has to go by at a moment: enough days back for every rule. */
export const planFacts = (store: Store, at: string) => factsSince(store, dayAt(Date.parse(at) - DAYS_BACK * DAY_MS));

/** The handover of a shift as the log has it now; for a shift that is not over, up to now. */
export async function readHandover(store: Store, shift: Shift, now: string): Promise<Handover> {
  const entries: LogEntry[] = [];
  for (const day of daysAround(shift)) entries.push(...(await store.entriesOfDay(day)));
  const facts = await planFacts(store, shift.began);
  const until = Date.parse(now) < Date.parse(shift.ends) ? now : shift.ends;
  return handoverOf({
    shift,
    entries: entries.sort((a, b) => a.number - b.number),
    holds: await store.matters(),
    rows: facts.tests,
    drafts: store.drafts().filter(({ startedAt }) => Date.parse(startedAt) < Date.parse(until)),
    late: lateDuring(store.station.samplingPlan ?? [], facts, { began: shift.began, until }),
    careNow: careMatters(await store.care.known(now.slice(0, 10))),
    head: store.head(),
  });
}

/** Months in which a handover can still wait for somebody. */
const MONTHS_WAITING = 2;

/** The latest handover, if nobody has taken it yet; null otherwise. */
export async function untakenHandover(store: Store): Promise<Extract<LoggedEvent, { kind: "handover" }> | null> {
  const events: LoggedEvent[] = [];
  for (const month of store.indexMonths().slice(0, MONTHS_WAITING)) events.push(...(await store.events(month)));
  const last = events.filter((event) => event.kind === "handover").toSorted((a, b) => b.number - a.number)[0];
  if (last === undefined) return null;
  const taken = events.some((event) => event.kind === "handover taken" && event.handover.number === last.number);
  return taken ? null : last;
}
