import { say } from "../../words/say.ts";
import type { App, Place, Step } from "../place.ts";
import { step } from "../place.ts";
import { SIGN_ON } from "./people.ts";

/** Whether nothing may be seen or done here before somebody signs on. Where nothing can be recorded one may look. */
export const mustSignOn = ({ people, session, readOnly }: App): boolean =>
  people.rule === "required" && people.trouble === null && session === null && readOnly === null;

/** Places that are one person's own: nobody else comes back to them. */
const isOwn = (place: Place): boolean =>
  place.name === "help" ? isOwn(place.of) : ["signOn", "operators", "operatorForm"].includes(place.name);

const isSignOn = (place: Place): boolean => place.name === "signOn" || (place.name === "help" && isSignOn(place.of));

/**
 * The screens with the sign-on page over whatever is there, while nobody is signed on who must be. Whatever a key or an
 * answer of the disk brings up, it comes to lie underneath, as it was, and is there again after.
 */
export function gated(app: App): App {
  if (!mustSignOn(app) || isSignOn(app.place)) return app;
  const beneath = [...app.behind, app.place].filter((place) => !isOwn(place));
  return { ...app, place: SIGN_ON, behind: beneath.length > 0 ? beneath : [{ name: "bench", at: 0 }] };
}

/** What lay under the sign-on page; the bench where there was nothing. */
export function uncovered(app: App): App {
  const behind = app.behind.filter((place) => !isSignOn(place));
  const place = behind.at(-1) ?? ({ name: "bench", at: 0 } as const);
  return { ...app, place, behind: behind.slice(0, -1) };
}

const MINUTE_MS = 60_000;

/** Nobody signs a paper that is still being read to them: the recovery code stays till Enter. */
const showsCode = ({ place }: App): boolean => place.name === "operatorForm" && place.code !== null;

/**
 * Signs off whoever has not touched a key for so long; null while nothing is due. A clock that was set back begins the
 * time anew.
 */
export function idledOff(app: App, now: string): Step | null {
  const { session, people, touchedAt } = app;
  if (session === null || people.rule === "none" || showsCode(app)) return null;
  const idleMs = Date.parse(now) - Date.parse(touchedAt);
  if (idleMs < 0) return step({ ...app, touchedAt: now });
  if (idleMs < people.idleMinutes * MINUTE_MS) return null;
  const message = say`${session.initials} was signed off: no key for ${people.idleMinutes} min. All is as it was`;
  return step({ ...app, session: null, message }, { do: "people", ask: { is: "sign off", event: "idle" } });
}
