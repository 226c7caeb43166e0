import type { ReferenceCheck } from "../../record/care.ts";
import type { IndexRow } from "../../record/indexRow.ts";
import type { LogEntry } from "../../record/logEntry.ts";
import { nameOfItem, type RegisterItem } from "../../record/register.ts";
import { entryWords } from "../../report/entryLine.ts";
import type { SieveTold } from "../../store/careReading.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type App, leave, type Place } from "../place.ts";
import type { AperturesAnswer, SievePlace } from "./places.ts";
import { otherItems, sieveRows } from "./rows.ts";

/** Answers arrive even while the operator looks at the help: they go to every place that waits for them. */
function everywhere(app: App, change: (place: Place) => Place): App {
  const changed = (place: Place): Place =>
    place.name === "help" ? { ...place, of: change(place.of) as typeof place.of } : change(place);
  return { ...app, place: changed(app.place), behind: app.behind.map(changed) };
}

/** What the log tells of one sieve has been read. */
export const sieveTold = (app: App, serial: string, told: SieveTold): App =>
  everywhere(app, (place) => (place.name === "sieve" && place.serial === serial ? { ...place, told } : place));

/** What the tests of a sieve say of its aperture. */
export const effectiveRead = (app: App, serial: string, effective: SievePlace["effective"]): App =>
  everywhere(app, (place) => (place.name === "sieve" && place.serial === serial ? { ...place, effective } : place));

const isForm = ({ name }: Place): boolean => name === "careForm" || name === "inspect" || name === "reference";

/** Registering begins with what is registered: both pages of that form are left at once. */
function leftForms(app: App): App {
  const left = leave(app);
  return left.place.name === "careForm" ? leftForms(left) : left;
}

/** The entry is on record: back from the form to what was behind it. */
export function careRecorded(app: App, entry: LogEntry): App {
  const back = isForm(app.place) ? leftForms(app) : app;
  return { ...back, operator: entry.by, message: say`no. ${entry.number}: ${spoken(entryWords(entry))}` };
}

/** What was registered is read: the list turns to it and marks it. */
export function listFollows(app: App, item: RegisterItem): App {
  const { place, care = null } = app;
  if (place.name !== "sieves") return app;
  const list = item.schema === "sievewright.sieve/1" ? ("sieves" as const) : ("others" as const);
  const turned = { ...place, list, filter: "", known: care };
  const names =
    list === "sieves" ? sieveRows(turned).map(({ sieve }) => sieve.serial) : otherItems(turned).map(nameOfItem);
  return { ...app, place: { ...place, list, filter: "", at: Math.max(0, names.indexOf(nameOfItem(item))) } };
}

/** A file could not be registered: its name is in hand again, to be mended. */
export function fileRefused(app: App, path: string, reason: string): App {
  const { place } = app;
  const mended =
    place.name === "careForm" && place.form === "file" ? { ...place, answers: [], typed: path, signing: false } : place;
  return { ...app, place: mended, message: spoken(reason) };
}

/** A file of measured apertures has been read. */
export function aperturesArrived(app: App, { path, warpUm, weftUm = [] }: AperturesAnswer): App {
  const message = say`${path}: ${warpUm.length} apertures along the warp, ${weftUm.length} along the weft`;
  const { place } = app;
  if (place.name !== "inspect") return app;
  return { ...app, message, place: { ...place, step: "instrument", warpUm, weftUm, typed: place.instrument } };
}

/** The latest tests have been read, to choose the one with the reference material from. */
export const referenceRowsRead = (app: App, rows: readonly IndexRow[]): App =>
  everywhere(app, (place) => (place.name === "reference" ? { ...place, rows } : place));

/** What the chosen test says of the sieves. */
export function referenceFound(app: App, check: ReferenceCheck): App {
  const { place } = app;
  return place.name === "reference"
    ? { ...app, message: null, place: { ...place, step: "result", check, typed: "", at: 0 } }
    : app;
}
