import type { IndexRow } from "../../record/indexRow.ts";
import { standingText } from "../../report/amendmentWords.ts";
import { matches } from "../list.ts";
import { type App, enter, type LogPlace, type Step, step } from "../place.ts";
import { dispositionText, shortVerdict } from "../words.ts";

/** A screenful and some: when fewer rows match, another month is read. */
const ENOUGH_ROWS = 60;

const wordsOf = (row: IndexRow): string[] => [
  row.product,
  row.lot,
  row.line,
  row.samplingPoint,
  row.at.slice(0, 10),
  row.by,
];

const statesOf = (row: IndexRow): string[] => [
  shortVerdict(row.test, row.verdict).text,
  row.test,
  dispositionText(row.disposition),
  standingText(row.amended),
];

export const matching = (place: LogPlace): readonly IndexRow[] =>
  place.filter.trim() === ""
    ? place.rows
    : place.rows.filter((row) => matches(place.filter, wordsOf(row), statesOf(row)));

/** The log with another month on its way, if what matches does not fill the screen. */
export function readingOn(app: App, place: LogPlace): Step {
  const [month] = place.months;
  const wanting = matching(place).length < ENOUGH_ROWS && month !== undefined && !place.reading;
  if (!wanting) return step({ ...app, message: null, place });
  return step({ ...app, message: null, place: { ...place, reading: true } }, { do: "readMonth", month });
}

/** Into the log, newest month first. */
export const logPlace = (app: App): Step => {
  const place: LogPlace = { name: "log", filter: "", at: 0, rows: [], months: app.months, reading: false, marks: {} };
  return readingOn(enter(app, place), place);
};

const joined = (place: LogPlace, month: string, rows: readonly IndexRow[]): LogPlace => ({
  ...place,
  rows: [...place.rows, ...rows.toReversed()],
  months: place.months.filter((m) => m !== month),
  reading: false,
});

/** A month has been read: its rows join the list, which stays newest first, even while the operator is elsewhere. */
export function monthRead(app: App, month: string, rows: readonly IndexRow[]): Step {
  const { place } = app;
  if (place.name === "log") return readingOn(app, joined(place, month, rows));
  const behind = app.behind.map((left) => (left.name === "log" ? joined(left, month, rows) : left));
  return step({ ...app, behind });
}
