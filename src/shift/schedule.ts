import { Temporal } from "temporal-polyfill";
import { knownZone } from "../record/knownZone.ts";
import { WEEKDAYS, type WeeklyShift } from "../record/station.ts";

/** What a station says of its days and shifts. */
export interface Schedule {
  readonly timeZone: string;
  /** The production day begins at this local time. */
  readonly dayBegins: string;
  /** Shifts with names and ends. */
  readonly shifts?: readonly WeeklyShift[] | undefined;
  /** The short way: when shifts begin, each until the next, every day. */
  readonly shiftBegins?: readonly string[] | undefined;
}

/** One shift of the calendar. */
export interface Shift {
  readonly name: string;
  /** Moments of the station's clock, with offset; the end is excluded. */
  readonly began: string;
  readonly ends: string;
  /** The production day in which it began. */
  readonly day: string;
}

const momentOf = (at: Temporal.ZonedDateTime): string => at.toString({ timeZoneName: "never", smallestUnit: "second" });

/** The shifts of a week by name: as given, else made of their beginnings, else one a day. */
function weekly({ shifts, shiftBegins, dayBegins }: Schedule): readonly WeeklyShift[] {
  if (shifts !== undefined) return shifts;
  const begins = [...(shiftBegins ?? [dayBegins])].sort();
  return begins.map((from, i) => {
    const ends = begins[(i + 1) % begins.length] ?? from;
    return { name: begins.length === 1 ? "day" : from, begins: from, ends };
  });
}

interface Span {
  readonly name: string;
  readonly from: Temporal.ZonedDateTime;
  readonly until: Temporal.ZonedDateTime;
}

/** The shifts that begin on a date. A time that the change to summer time skips is taken one hour later. */
function beginningOn(date: Temporal.PlainDate, shifts: readonly WeeklyShift[], timeZone: string): Span[] {
  const weekday = WEEKDAYS[date.dayOfWeek - 1];
  return shifts
    .filter(({ on }) => on === undefined || on.some((named) => named === weekday))
    .map(({ name, begins, ends }) => ({
      name,
      from: date.toZonedDateTime({ timeZone, plainTime: begins }),
      until: (ends > begins ? date : date.add({ days: 1 })).toZonedDateTime({ timeZone, plainTime: ends }),
    }));
}

function productionDayOf(at: Temporal.ZonedDateTime, dayBegins: string): string {
  const date = at.toPlainDate();
  const begins = date.toZonedDateTime({ timeZone: at.timeZoneId, plainTime: dayBegins });
  return (Temporal.ZonedDateTime.compare(at, begins) >= 0 ? date : date.subtract({ days: 1 })).toString();
}

const isBefore = (a: Temporal.ZonedDateTime, b: Temporal.ZonedDateTime): boolean =>
  Temporal.ZonedDateTime.compare(a, b) < 0;

/** All shifts that begin from so many days before a moment until so many after it, in order. */
function around(at: Temporal.ZonedDateTime, schedule: Schedule, before: number, after: number): readonly Span[] {
  const shifts = weekly(schedule);
  const first = at.toPlainDate().subtract({ days: before });
  return Array.from({ length: before + after + 1 }, (_, i) => first.add({ days: i }))
    .flatMap((date) => beginningOn(date, shifts, at.timeZoneId))
    .sort((a, b) => Temporal.ZonedDateTime.compare(a.from, b.from));
}

/** A weekly pattern leaves no gap longer than this. */
const WEEK_AND_A_DAY = 8;

const OFFSET = /[+-]\d{2}:\d{2}$/;

/**
 * The shift that a moment lies in, by the station's clock: its name, beginning, end and production day. Instants are
 * compared, so the hour that a clock change repeats belongs to one shift and the offset that the moment is written with
 * does not matter; a night across a change lasts an hour more or less. Where shifts overlap the later one counts; between
 * two shifts it is "between shifts", from the end of the one to the beginning of the other. In a zone that nobody knows the
 * clock is that of the moment's own offset.
 *
 * @source common practice, no source: a shift and what is made in it belong to the production day in which it began
 */
export function shiftAt(at: string, schedule: Schedule): Shift {
  const timeZone = knownZone(schedule.timeZone, OFFSET.exec(at)?.[0] ?? "UTC");
  const moment = Temporal.Instant.from(at).toZonedDateTimeISO(timeZone);
  const holding = around(moment, schedule, 1, 0).findLast(
    ({ from, until }) => !isBefore(moment, from) && isBefore(moment, until),
  );
  if (holding !== undefined) return shiftOf(holding, schedule.dayBegins);
  const spans = around(moment, schedule, WEEK_AND_A_DAY, WEEK_AND_A_DAY);
  const from = spans.filter(({ until }) => !isBefore(moment, until)).at(-1)?.until ?? moment;
  const until = spans.find((span) => isBefore(moment, span.from))?.from ?? moment;
  return shiftOf({ name: "between shifts", from, until }, schedule.dayBegins);
}

const shiftOf = ({ name, from, until }: Span, dayBegins: string): Shift => ({
  name,
  began: momentOf(from),
  ends: momentOf(until),
  day: productionDayOf(from, dayBegins),
});

/** When the production day of a moment began, as a moment of the station's clock. */
export const dayBegan = (at: string, { timeZone, dayBegins }: Schedule): string =>
  shiftAt(at, { timeZone, dayBegins }).began;

/** When the shift of a moment began. */
export const shiftBegan = (at: string, schedule: Schedule): string => shiftAt(at, schedule).began;

/** The shift before one: the one that the last second before it lies in. */
export const shiftBefore = ({ began }: Shift, schedule: Schedule): Shift =>
  shiftAt(new Date(Date.parse(began) - 1000).toISOString(), schedule);

/** Whether a moment lies in a shift, as instants. */
export const inShift = (at: string, { began, ends }: Pick<Shift, "began" | "ends">): boolean =>
  Date.parse(at) >= Date.parse(began) && Date.parse(at) < Date.parse(ends);
