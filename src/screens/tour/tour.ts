import { wrapped } from "../../report/columns.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line } from "../line.ts";
import { type App, type Step, step } from "../place.ts";
import { entriesOf, TOUR, type TourStep, wordsHere } from "./steps.ts";

const began = (app: App, at: number): App => ({ ...app, tour: { at, entries: entriesOf(app) } });
const ended = (app: App): App => ({
  ...app,
  tour: null,
  message: say`that was the tour: x goes on practising, ? helps in every place, Ctrl+p begins it again`,
});

/** A station without recorded tests has nothing to open. */
const isPassed = ({ onRecord, done }: TourStep, app: App, entries: number): boolean =>
  (onRecord === true && app.recent?.length === 0) || done(app, entries);

/**
 * The screens with the next step told once the present one is seen to be done. Whoever ends the practice test too soon
 * begins with it again. Nothing but what is told changes: no key and no place is taken away.
 */
export function toured(app: App): App {
  const { tour } = app;
  if (!tour) return app;
  const present = TOUR[tour.at];
  if (present === undefined) return ended(app);
  if (present.practising && !app.practice) return began(app, 0);
  return isPassed(present, app, tour.entries) ? toured(began(app, tour.at + 1)) : app;
}

/** The screens with the tour at its first step. */
export const withTour = (app: App): App => began(app, 0);

/** One key begins the tour, and ends it for good: it comes again only when it is asked for. */
export const tourTurned = (app: App): Step =>
  app.tour
    ? step({ ...app, tour: null, message: say`the tour is over: Ctrl+p begins it again` })
    : step({ ...withTour(app), message: null });

/** What is to be done now, in words; null while no tour is under way. */
export function tourWords(app: App): string | null {
  const { tour } = app;
  const present = tour ? TOUR[tour.at] : undefined;
  if (!tour || present === undefined) return null;
  return say`tour ${tour.at + 1}/${TOUR.length}: ${spoken(wordsHere(app, present))} · Ctrl+p ends it`;
}

/** Rows of its own between the place and its keys. */
export const tourLines = (app: App, columns: number): Line[] =>
  wrapped(tourWords(app) ?? "", columns - 2)
    .filter((text) => text !== "")
    .map((text) => line(` ${text}`, "key"));
