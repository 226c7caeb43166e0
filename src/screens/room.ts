import type { Line, Span } from "./line.ts";
import type { App, Place, PlaceName, Size, Step } from "./place.ts";

/** One key of a place: shown in the footer and on the help page, and what it does, all from this one row. */
export interface Binding {
  /** The first is the one shown. Letters are written as they are typed, others by name ("enter", "f2", "ctrl+r"). */
  readonly keys: readonly string[];
  /** For the footer: a word or two. */
  readonly word: string;
  /** For the help page: a sentence. */
  readonly help: string;
  readonly does: (app: App, at: string) => Step;
  /** Why the key does nothing just now, in the operator's words. */
  readonly refusal?: (app: App) => string | null;
  /** Works, and is on the help page, but is not worth a place in the footer. */
  readonly quiet?: true;
}

/** What typed characters mean in a place: nothing but actions, a number, or text. */
export type Field = "none" | "number" | "text";

/** A place of the program: what it shows, what its keys do. */
export interface Room {
  readonly title: (app: App) => {
    /** Before the name: which of several it is. */
    readonly mark?: Span | null;
    readonly left: string;
    readonly kept?: string;
    readonly right: Line;
  };
  /** At most `size.rows` lines, none wider than `size.columns`. */
  readonly body: (app: App, size: Size) => readonly Line[];
  /** Whether the rows are worth more than the rules around them, where there are few. */
  readonly bare?: (app: App) => boolean;
  readonly keys: (app: App) => readonly Binding[];
  readonly field: (app: App) => Field;
  readonly typed: (app: App, text: string) => Step;
  readonly erased: (app: App) => Step;
  /** A scanner, a typing balance or a paste: one whole entry, never actions. */
  readonly scanned: (app: App, text: string, ended: boolean, at: string) => Step;
  /** What this place is for, for the help page. */
  readonly about: readonly string[];
}

/** The place the operator is in, known to be of this name; anything else is a fault of the program. */
export function here<N extends PlaceName>(app: App, name: N): Extract<Place, { name: N }> {
  const place: Place = app.place;
  if (place.name !== name) throw new Error(`in ${place.name}, not in ${name}`);
  return place as Extract<Place, { name: N }>;
}
