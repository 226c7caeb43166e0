import type { Draft } from "../record/draft.ts";
import type { Shaking } from "../record/test.ts";
import { type Run, refuse } from "./run.ts";
import { withItem } from "./trail.ts";
import { inStage, shaken, stageAfter } from "./weigh.ts";

const noted = (draft: Draft, shaking: Partial<Shaking>, to: string, at: string): Draft =>
  withItem({ ...draft, shaking: { ...draft.shaking, ...shaking } }, { at, field: "shaking", from: null, to });

const STOPPED = "the shaker has stopped already: u takes that back";

/** The shaker was started; a restart of the program finds the moment in the draft and goes on counting. */
export function shakingStarted(run: Run, at: string): Run {
  if (run.draft.shaking.startedAt !== null) return run;
  return { ...run, message: null, draft: noted(run.draft, { startedAt: at }, "started", at) };
}

/** When a shaker that stops by itself came to rest: a wait after its time is no shaking. */
function stoppedAt({ startedAt, plannedS }: Shaking, at: string): string {
  if (startedAt === null || plannedS === 0) return at;
  const timeUpMs = Date.parse(startedAt) + plannedS * 1000;
  return Date.parse(at) > timeUpMs ? new Date(timeUpMs).toISOString() : at;
}

/** Time is up, or the operator says that the shaker has stopped after its full time. */
export function shakingEnded(run: Run, at: string): Run {
  if (run.draft.shaking.startedAt === null) return refuse(run, "start the shaker first: Enter");
  if (shaken(run.draft)) return refuse(run, STOPPED);
  const ended = { ...run, draft: noted(run.draft, { endedAt: stoppedAt(run.draft.shaking, at) }, "ended", at) };
  return inStage(ended, stageAfter(ended.draft));
}

/** The countdown was not run to its end, for a reason that goes on record; a shaker that ran is stopped at that moment. */
export function shakingSkipped(run: Run, reason: string, at: string): Run {
  const why = reason.trim();
  if (why === "") return refuse(run, "say why the shaking is cut short");
  if (shaken(run.draft)) return refuse(run, STOPPED);
  const endedAt = run.draft.shaking.startedAt === null ? null : stoppedAt(run.draft.shaking, at);
  const skipped = { ...run, draft: noted(run.draft, { skipped: why, endedAt }, `skipped: ${why}`, at) };
  return inStage(skipped, stageAfter(skipped.draft));
}

/** Seconds of shaking still to go at a moment: the plan before the start, never below 0, null without a plan. */
export function secondsToGo(shaking: Shaking, nowMs: number): number | null {
  if (shaking.plannedS === 0) return null;
  if (shaking.startedAt === null) return shaking.plannedS;
  const goneS = (nowMs - Date.parse(shaking.startedAt)) / 1000;
  return Math.min(shaking.plannedS, Math.max(0, shaking.plannedS - goneS));
}
