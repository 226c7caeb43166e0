import type { Key } from "../terminal/keys.ts";

/** A scanner held on a label, or a balance whose key bounces, sends the same again within this; no hand weighs twice in it. */
export const REPEAT_MS = 300;

/**
 * Tells a burst that came twice: the same text within 300 ms of the one before. The same mass sent later is an entry like
 * any other, and is doubted as such.
 *
 * @returns a function to ask before each key, with a clock in ms; true: leave this one out
 */
export function repeatGuard(): (key: Key, nowMs: number) => boolean {
  let last = "";
  let lastMs = Number.NEGATIVE_INFINITY;
  return (key, nowMs) => {
    if (key.name !== "entry") return false;
    const text = key.text.trim();
    const repeated = text === last && nowMs - lastMs < REPEAT_MS;
    [last, lastMs] = [text, nowMs];
    return repeated;
  };
}
