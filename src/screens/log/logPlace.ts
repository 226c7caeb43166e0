import type { IndexRow } from "../../record/indexRow.ts";
import type { MonthWords } from "../../record/monthWords.ts";
import { dayText } from "../../words/figures.ts";
import { matcher } from "../list.ts";
import { type App, enter, type LogPlace, type Step, step } from "../place.ts";
import { datesIn, isDated } from "./dates.ts";
import { mayHold } from "./mayHold.ts";
import { rememberedAsSpoken } from "./rememberedAsSpoken.ts";
import { statesText } from "./states.ts";

/** A screenful and some: when fewer rows match, another month is read. */
const ENOUGH_ROWS = 60;

/** A row never changes, so what is found in it is put together once: with 100,000 rows that is most of the search. */
const findable = rememberedAsSpoken((row: IndexRow) => ({
  words: [row.product, row.lot, row.line, row.samplingPoint, row.at.slice(0, 10), dayText(row.at), row.by]
    .join(" ")
    .toLowerCase(),
  states: statesText(row),
}));

const rowMatches = (filter: string) => {
  const isFound = matcher(filter);
  return (row: IndexRow): boolean => {
    const { words, states } = findable(row);
    return isFound(words, states);
  };
};

/** What matched which filter, for the rows of a log as they are. */
const foundIn = rememberedAsSpoken((_rows: readonly IndexRow[]) => new Map<string, readonly IndexRow[]>());

/** Typing on only narrows: what matched the beginning of a filter holds all that matches the whole. */
function found(rows: readonly IndexRow[], filter: string): readonly IndexRow[] {
  const known = foundIn(rows);
  const there = known.get(filter);
  if (there) return there;
  const begun = [...known.keys()].filter((one) => filter.startsWith(one)).toSorted((a, b) => b.length - a.length)[0];
  const narrowed = (begun === undefined ? rows : (known.get(begun) ?? rows)).filter(rowMatches(filter));
  known.set(filter, narrowed);
  return narrowed;
}

const monthOfRow = ({ day }: IndexRow): string => day.slice(0, 7);

/** Months that are not read and can hold what is looked for, newest first. */
export const monthsLeft = ({ filter, months, words }: LogPlace): readonly string[] =>
  filter.trim() === "" || words === undefined
    ? months
    : months.filter((month) => mayHold(filter, month, words.get(month)));

/**
 * The rows to show. While a date is looked for its months are read before those in between; any other list ends where the
 * first month is missing that can hold more, so that nobody takes what is on either side of it for neighbours.
 */
export const matching = (place: LogPlace): readonly IndexRow[] => {
  const rows = place.filter.trim() === "" ? place.rows : found(place.rows, place.filter);
  const [unread] = monthsLeft(place);
  const last = rows.at(-1);
  const gap = unread !== undefined && last !== undefined && monthOfRow(last) < unread && !isDated(place.filter);
  return gap ? rows.filter((row) => monthOfRow(row) >= unread) : rows;
};

/** The month to read next: of a date that is looked for its own, else the newest that can hold more. */
export function nextMonth(place: LogPlace): string | undefined {
  const left = monthsLeft(place);
  return left.find((month) => datesIn(place.filter, month)) ?? left[0];
}

/** Whether what matches leaves room for another month; a date's own months are enough if they hold anything. */
function isWanting(place: LogPlace): boolean {
  const { length } = matching(place);
  const datesAreRead = isDated(place.filter) && !place.months.some((month) => datesIn(place.filter, month));
  return length < ENOUGH_ROWS && !(datesAreRead && length > 0);
}

/** The log with another month on its way, if what matches does not fill the screen. */
export function readingOn(app: App, place: LogPlace): Step {
  const month = nextMonth(place);
  if (month === undefined || place.reading || !isWanting(place)) return step({ ...app, message: null, place });
  return step({ ...app, message: null, place: { ...place, reading: true } }, { do: "readMonth", month });
}

/** Into the log, newest month first. */
export const logPlace = (app: App): Step => {
  const place: LogPlace = { name: "log", filter: "", at: 0, rows: [], months: app.months, reading: false, marks: {} };
  const { app: entered, effects } = readingOn(enter(app, place), place);
  return step(entered, { do: "readMonthWords" }, ...effects);
};

/** It is known which months can hold what: those that can't are not read from now on. */
export function wordsRead(app: App, words: ReadonlyMap<string, MonthWords>): Step {
  const { place } = app;
  if (place.name === "log") return readingOn(app, { ...place, words });
  const behind = app.behind.map((left) => (left.name === "log" ? { ...left, words } : left));
  return step({ ...app, behind });
}

/** Rows put where they belong among others, the newest first. */
function among(rows: readonly IndexRow[], fresh: readonly IndexRow[]): readonly IndexRow[] {
  const [newest] = fresh;
  if (newest === undefined) return rows;
  const at = rows.findIndex(({ number }) => number < newest.number);
  return at < 0 ? [...rows, ...fresh] : [...rows.slice(0, at), ...fresh, ...rows.slice(at)];
}

/** With a month more; only its own rows are searched for what is typed. */
function joined(place: LogPlace, month: string, read: readonly IndexRow[]): LogPlace {
  const fresh = read.toReversed();
  const rows = among(place.rows, fresh);
  const { filter } = place;
  if (filter.trim() !== "")
    foundIn(rows).set(filter, among(found(place.rows, filter), fresh.filter(rowMatches(filter))));
  return { ...place, rows, months: place.months.filter((m) => m !== month), reading: false };
}

/** A month has been read: its rows join the list, which stays newest first, even while the operator is elsewhere. */
export function monthRead(app: App, month: string, rows: readonly IndexRow[]): Step {
  const { place } = app;
  if (place.name === "log") return readingOn(app, joined(place, month, rows));
  const behind = app.behind.map((left) => (left.name === "log" ? joined(left, month, rows) : left));
  return step({ ...app, behind });
}
