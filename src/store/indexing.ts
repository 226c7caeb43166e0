import { isAmendment } from "../record/amendmentRefusal.ts";
import {
  type AmendmentRef,
  EventSchema,
  type IndexMonth,
  type IndexRow,
  type LoggedEvent,
} from "../record/indexRow.ts";
import type { Amendment, DayFile, LogEntry } from "../record/logEntry.ts";
import { FIRST_PREVIOUS } from "../record/seal.ts";
import { keptSealOf } from "./chainEnd.ts";
import { ROWS_DRAWN } from "./indexRowOf.ts";

/** The index row of an entry; null for one that has none. */
export type DrawRow = (entry: LogEntry) => IndexRow | null;

export const emptyMonth = (month: string): IndexMonth => ({
  schema: "sievewright.index/1",
  month,
  days: {},
  rows: [],
  drawnBy: ROWS_DRAWN,
});

/** What of an index that was read can be built on: nothing that other rules drew, no day that has a test without a row. */
export function trustedPart(index: IndexMonth): IndexMonth {
  if (index.drawnBy !== ROWS_DRAWN) return emptyMonth(index.month);
  const { undrawn = [] } = index;
  return withOnly(
    index,
    Object.keys(index.days).filter((day) => !undrawn.includes(day)),
  );
}

/**
 * The index of a month with one of its days brought up to date; the very same index when it was so already. A day that has
 * only grown, as its seals tell, gets the new entries' rows; any other is drawn afresh.
 */
export function withDay(index: IndexMonth, day: DayFile, draw: DrawRow): IndexMonth {
  const last = day.entries.at(-1);
  const lastSeal = last === undefined ? FIRST_PREVIOUS : keptSealOf(last);
  const known = index.days[day.day];
  if (known?.entries === day.entries.length && known.lastSeal === lastSeal) return index;
  const grown = known !== undefined && day.entries[known.entries]?.previous === known.lastSeal;
  const before = grown ? index : withoutDays(index, [day.day]);
  const fresh = day.entries.slice(grown ? known.entries : 0);
  const drawn = fresh.map((entry) => ({ entry, row: draw(entry) }));
  const rows = drawn.flatMap(({ row }) => (row === null ? [] : [row]));
  const isUndrawn = drawn.some(({ entry, row }) => entry.kind === "test" && row === null);
  const refs = fresh.flatMap((entry) => (isAmendment(entry) ? [refTo(entry)] : []));
  const events = fresh.filter(isEvent);
  const { amendments: _former, events: _known, undrawn: _undrawn, ...kept } = index;
  return {
    ...kept,
    days: { ...index.days, [day.day]: { entries: day.entries.length, lastSeal } },
    rows: inOrder(before.rows, rows),
    ...amending(inOrder(before.amendments ?? [], refs)),
    ...telling(inOrder(before.events ?? [], events)),
    ...lacking([...new Set([...(before.undrawn ?? []), ...(isUndrawn ? [day.day] : [])])]),
  };
}

const inOrder = <T extends { readonly number: number }>(before: readonly T[], fresh: readonly T[]): T[] =>
  [...before, ...fresh].sort((a, b) => a.number - b.number);

const refTo = ({ day, number, kind, of }: Amendment): AmendmentRef => ({ day, number, kind, of });

/** A month in which nothing was amended says nothing of it. */
const amending = (amendments: AmendmentRef[]): Pick<IndexMonth, "amendments"> =>
  amendments.length > 0 ? { amendments } : {};

const EVENT_KINDS: ReadonlySet<string> = new Set(EventSchema.options.map(({ shape }) => shape.kind.value));
const isEvent = (entry: LogEntry): entry is LoggedEvent => EVENT_KINDS.has(entry.kind);

const telling = (events: LoggedEvent[]): Pick<IndexMonth, "events"> => (events.length > 0 ? { events } : {});

const lacking = (undrawn: string[]): Pick<IndexMonth, "undrawn"> => (undrawn.length > 0 ? { undrawn } : {});

function withoutDays(index: IndexMonth, days: readonly string[]): IndexMonth {
  const { amendments = [], events = [], undrawn = [], ...rest } = index;
  const isLeft = ({ day }: { readonly day: string }) => !days.includes(day);
  return {
    ...rest,
    rows: index.rows.filter(isLeft),
    ...amending(amendments.filter(isLeft)),
    ...telling(events.filter(isLeft)),
    ...lacking(undrawn.filter((day) => !days.includes(day))),
  };
}

/** The index without the days that the log has no longer (a file that was set aside); the same one when there is none. */
export function withOnly(index: IndexMonth, days: readonly string[]): IndexMonth {
  const gone = Object.keys(index.days).filter((day) => !days.includes(day));
  if (gone.length === 0) return index;
  const left = Object.fromEntries(Object.entries(index.days).filter(([day]) => !gone.includes(day)));
  return { ...withoutDays(index, gone), days: left };
}
