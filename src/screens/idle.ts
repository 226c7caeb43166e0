import type { Key } from "../terminal/keys.ts";
import { clockText } from "../words/figures.ts";
import { say } from "../words/say.ts";
import { BLANK, clipped, type Line, line } from "./line.ts";
import type { App, Size } from "./place.ts";

const MINUTE_MS = 60_000;

/** Blank once no key was touched for as long as the station says; a clock that was set back begins the time anew. */
export function blanked(app: App, now: string): App {
  const minutes = app.station.screen?.blankMinutes;
  if (minutes === undefined || app.blank || app.reader) return app;
  const idleMs = Date.parse(now) - Date.parse(app.touchedAt);
  if (idleMs < 0) return { ...app, touchedAt: now };
  return idleMs < minutes * MINUTE_MS ? app : { ...app, blank: true };
}

/** No hand wakes the screen, looks at it and means a key sooner than this. */
export const WAKING_MS = 300;

/** Back as it was; the key that woke it does nothing else. */
export const woken = (app: App, key: Key, now: string): App => ({
  ...app,
  blank: false,
  touchedAt: now,
  message:
    key.name === "entry"
      ? say`the screen was dark: what was scanned or sent then was not taken, do it again`
      : app.message,
});

/** A dark screen that says so much as that it is not switched off. */
export function blankFrame(app: App, size: Size): readonly Line[] {
  const told = say`${clockText(app.now)}  any key brings the screen back, and does nothing else`;
  const above = Math.floor((size.rows - 1) / 2);
  const rows = Array.from({ length: size.rows - 1 }, (_, row) => (row === above ? line(` ${told}`, "dim") : BLANK));
  return rows.map((row) => clipped(row, size.columns));
}
