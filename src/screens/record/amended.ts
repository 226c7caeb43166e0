import type { IndexRow } from "../../record/indexRow.ts";
import type { Amendment, LogEntry } from "../../record/logEntry.ts";
import type { TestHistory } from "../../record/versions.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type App, leave, onBench, type Place } from "../place.ts";

const DONE: Readonly<Record<Amendment["kind"], string>> = {
  correction: phrase("corrected"),
  voided: phrase("void: it counts no more, and stays on record"),
  reinstated: phrase("reinstated: it counts again"),
  waived: phrase("waived: it counts although it is invalid"),
};

const replaced = (rows: readonly IndexRow[], row: IndexRow): readonly IndexRow[] =>
  rows.map((one) => (one.number === row.number ? row : one));

/** A place left behind shows the test as it is to be read now. */
function brought(place: Place, history: TestHistory, row: IndexRow | undefined): Place {
  if (place.name === "record" && place.entry.number === history.entry.number)
    return { ...place, ...history, view: 0, back: 0, from: { line: 0, version: 0 } };
  return place.name === "log" && row !== undefined ? { ...place, rows: replaced(place.rows, row) } : place;
}

/** What was said of a recorded test is on record: back to its page, every list with its new figures. */
export function testAmended(app: App, entry: Amendment, history: TestHistory, row: IndexRow | undefined): App {
  const left = app.place.name === "correct" || app.place.name === "reason" ? leave(app) : app;
  const recent = row === undefined ? app.recent : replaced(app.recent ?? [], row);
  return {
    ...left,
    recent,
    operator: entry.by,
    place: brought(left.place, history, row),
    behind: left.behind.map((place) => brought(place, history, row)),
    message: say`recorded as no. ${entry.number}: test no. ${entry.of.number} ${spoken(DONE[entry.kind])}`,
  };
}

/** A test in work was ended: it is off the bench, and what was entered in it is on record. */
export function testEnded(app: App, entry: Extract<LogEntry, { kind: "test ended" }>): App {
  const { testId, product, lot } = entry.test;
  const drafts = app.drafts.filter((draft) => draft.testId !== testId);
  const month = entry.day.slice(0, 7);
  const months = app.months.includes(month) ? app.months : [month, ...app.months];
  const words = say`recorded as no. ${entry.number}: test of ${product.code} lot ${lot} ended without a result`;
  return { ...onBench({ ...app, drafts, months, operator: entry.by }), message: words };
}
