import type { App, Step } from "./place.ts";
import { stay, step } from "./place.ts";
import type { Room } from "./room.ts";

/** A list in which one moves, and which filters as one types. */
export interface ListPlace {
  readonly filter: string;
  readonly at: number;
}

/**
 * A row matches when each word of the filter is somewhere in it, in any case. Words for a state count from their beginning:
 * "valid" must not find what is invalid.
 *
 * @returns a function of a row's words and states, both in lower case
 */
export function matcher(filter: string): (words: string, states: string) => boolean {
  const wanted = filter.toLowerCase().split(/\s+/);
  return (words, states) =>
    wanted.every((word) => words.includes(word) || states.split(/\s+/).some((state) => state.startsWith(word)));
}

/** The same for words as they are. */
export const matches = (filter: string, words: readonly string[], states: readonly string[] = []): boolean =>
  matcher(filter)(words.join(" ").toLowerCase(), states.join(" ").toLowerCase());

/** The place one row on; it stays within the list. */
export const moved = <P extends ListPlace>(place: P, by: number, length: number): P => ({
  ...place,
  at: Math.max(0, Math.min(length - 1, place.at + by)),
});

const LONGEST_FILTER = 60;

export const filtered = <P extends ListPlace>(place: P, filter: string): P => ({
  ...place,
  filter: filter.slice(0, LONGEST_FILTER),
  at: 0,
});

/** Esc in a list: first the filter goes, then the place. */
export const clearOrLeave = <P extends ListPlace & App["place"]>(app: App, place: P, left: App): Step =>
  place.filter === "" ? step(left) : step({ ...stay(app).app, place: filtered(place, "") });

type Refilter = (app: App, change: (filter: string) => string) => Step;

/** What is typed in a list goes into its filter; a scan that ends with Enter opens the first row that matches. */
export const filterField = (
  refilter: Refilter,
  open: (app: App) => Step,
): Pick<Room, "field" | "typed" | "erased" | "scanned"> => ({
  field: () => "text",
  typed: (app, text) => refilter(app, (old) => old + text),
  erased: (app) => refilter(app, (old) => old.slice(0, -1)),
  scanned: (app, text, ended) => {
    const { app: found, effects } = refilter(app, (old) => old + text);
    return ended ? open(found) : { app: found, effects };
  },
});
