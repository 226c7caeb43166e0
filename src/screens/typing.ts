import type { App, Step } from "./place.ts";
import type { Room } from "./room.ts";

/** A step that changes what is being typed in a place. */
type Retyped = (app: App, change: (typed: string) => string) => Step;

/** How a field takes letters, Backspace and a scan: a scan is one entry, and its end is an Enter. */
export const typingBy = (
  retyped: Retyped,
  enter: (app: App) => Step,
): Required<Pick<Room, "typed" | "erased" | "scanned">> => ({
  typed: (app, text) => retyped(app, (old) => old + text),
  erased: (app) => retyped(app, (old) => old.slice(0, -1)),
  scanned: (app, text, ended) => {
    const typing = retyped(app, (old) => old + text);
    return ended ? enter(typing.app) : typing;
  },
});
