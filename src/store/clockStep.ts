import type { Draft } from "../record/draft.ts";
import type { LogEntry } from "../record/logEntry.ts";

/** The computer's clock was set: where it should have stood, and by how much it stands elsewhere. */
export interface ClockStep {
  readonly from: string;
  /** In s; negative for a clock that was set back. */
  readonly byS: number;
}

/** Two entries of one minute may be off by as much as this without anybody having set a clock. */
export const BACK_TOLERANCE_S = 120;
/** A station that lay idle for a year is no sign of a clock set forward; one that did for longer may be. */
export const IDLE_DAYS = 400;
export const RUNNING_TOLERANCE_S = 30;
const DAY_S = 86_400;

const lastTouched = ({ trail, startedAt }: Draft): string => trail.at(-1)?.at ?? startedAt;

/**
 * Whether the clock stands before what was written last, or longer after it than a station lies idle. Compared with the last
 * entry of the log, by number, and with the drafts, which may be younger; once the log tells of the step itself, no more.
 *
 * @param lastEntries the entries of the day that was written last, in the order of the log
 * @returns null where the clock may well be right, or nothing was written yet
 */
export function stepAtOpening(
  lastEntries: readonly LogEntry[],
  drafts: readonly Draft[],
  now: string,
): ClockStep | null {
  const toldMs = Math.max(...lastEntries.map((entry) => (entry.kind === "clock set" ? Date.parse(entry.from) : 0)), 0);
  const untold = drafts.map(lastTouched).filter((at) => Date.parse(at) > toldMs);
  const times = [lastEntries.at(-1)?.at, ...untold].filter((at) => at !== undefined);
  const from = times.reduce<string | null>((a, b) => (a !== null && Date.parse(a) >= Date.parse(b) ? a : b), null);
  if (from === null) return null;
  const byS = Math.round((Date.parse(now) - Date.parse(from)) / 1000);
  return byS < -BACK_TOLERANCE_S || byS > IDLE_DAYS * DAY_S ? { from, byS } : null;
}

/**
 * Tells when the clock leaves the time that has really passed, as a counter that only runs forward (also while the computer
 * sleeps) tells it. A clock that is drawn slowly to the right time is not noticed, and need not be.
 *
 * @param momentOf writes an instant, in ms since 1970 UTC, as a moment
 */
export function clockWatch(
  nowMs: () => number,
  counterMs: () => number,
  momentOf: (ms: number) => string,
): () => ClockStep | null {
  let apartMs = nowMs() - counterMs();
  return () => {
    const isMs = nowMs();
    const shouldMs = counterMs() + apartMs;
    const byS = Math.round((isMs - shouldMs) / 1000);
    apartMs = isMs - counterMs();
    return Math.abs(byS) > RUNNING_TOLERANCE_S ? { from: momentOf(shouldMs), byS } : null;
  };
}
