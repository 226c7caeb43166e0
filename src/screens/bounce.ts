import type { Key } from "../terminal/keys.ts";
import type { App } from "./place.ts";

/** Two wanted Enters lie further apart than this; a bouncing or held key comes again every 30 to 40 ms. */
export const BOUNCE_MS = 250;

/** What an Enter would answer: the question on the screen, not the row or field within it. */
function questionOf(app: App): string {
  const { place } = app;
  if (place.name === "run") return `run ${place.run.draft.stage} ${place.run.doubt?.text ?? ""}`;
  if (place.name === "sign" || place.name === "reason" || place.name === "publish")
    return `${place.name} ${place.field}`;
  if (place.name === "correct") return `correct ${place.step} ${place.doubt?.text ?? ""}`;
  if (place.name === "trend") return `trend ${place.page} ${place.keeping?.field ?? ""}`;
  if (place.name === "careForm") return `careForm ${place.signing} ${app.message ?? ""}`;
  if (place.name === "inspect" || place.name === "reference") return `${place.name} ${place.step}`;
  return place.name;
}

const isEnter = (key: Key): boolean => key.name === "enter" || (key.name === "entry" && key.ended);

/**
 * Tells Enters that nobody meant: one that follows another within a quarter of a second and would answer a question that
 * this other one has only just brought up (a doubt, the result, the signature). A held key never gets past such a
 * question, since each repeat starts the quarter of a second anew. Between rows and fields of one question Enters may
 * follow as fast as they like.
 *
 * @returns a function to ask before each key, with a clock in ms; true: leave this key out
 */
export function bounceGuard(): (app: App, key: Key, nowMs: number) => boolean {
  let lastMs = Number.NEGATIVE_INFINITY;
  let answered = "";
  return (app, key, nowMs) => {
    if (!isEnter(key)) return false;
    const question = questionOf(app);
    const bounced = key.name === "enter" && nowMs - lastMs < BOUNCE_MS && question !== answered;
    lastMs = nowMs;
    if (!bounced) answered = question;
    return bounced;
  };
}
