import { say } from "../../words/say.ts";
import type { App } from "../place.ts";

const LONGEST_INITIALS = 8;

/** Initials that the station does not know are taken on a second Enter. */
function unknownHere({ station }: App, by: string): string | null {
  const known = station.operators.length === 0 || station.operators.some((o) => o.initials === by);
  return known ? null : say`${by} is not known at this station: Enter again signs all the same`;
}

/** Who signs: whoever is signed on; else what is typed, else whoever signed last. */
export const initialsOf = (app: App, typed: string): string => app.session?.initials ?? (typed.trim() || app.operator);

/** Why these initials don't sign, or not yet; null when they do. */
export function initialsRefusal(app: App, by: string): string | null {
  if (app.session !== null) return null;
  if (by === "" || by.length > LONGEST_INITIALS)
    return say`sign with your initials, at most ${LONGEST_INITIALS} characters`;
  const unknown = unknownHere(app, by);
  return unknown === null || app.message === unknown ? null : unknown;
}
