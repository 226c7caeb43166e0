import { accepted, type Outcome } from "../entry/outcome.ts";
import { type ClockStep, stepAtOpening } from "./clockStep.ts";
import type { Store } from "./store.ts";

/** Tells the log that the clock was set. */
export async function recordStep(store: Store, { from, byS }: ClockStep, at: string): Promise<Outcome<ClockStep>> {
  const entry = await store.record({ kind: "clock set", at, by: "program", from, byS });
  return entry.ok ? accepted({ from, byS }) : entry;
}

/** Looks, when a station is opened to be worked on, whether the clock was set since; the log tells of it once. */
export async function noteClock(store: Store, now: string): Promise<Outcome<ClockStep | null>> {
  if (store.readOnly !== null || store.station.demo) return accepted(null);
  const step = stepAtOpening(store.atOpening, store.drafts(), now);
  return step === null ? accepted(null) : recordStep(store, step, now);
}

/** "the computer's clock was set back by 1 day 2 h; the log tells of it". */
export function stepInWords({ byS }: ClockStep): string {
  const way = byS < 0 ? "back" : "forward";
  return `the computer's clock was set ${way} by ${spanInWords(Math.abs(byS))}: check that it is right; the log tells of it`;
}

function spanInWords(s: number): string {
  if (s < 120) return `${s} s`;
  if (s < 2 * 3600) return `${Math.round(s / 60)} min`;
  return s < 2 * 86_400 ? `${Math.round(s / 3600)} h` : `${Math.round(s / 86_400)} days`;
}
