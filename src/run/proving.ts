import type { RunOtherwise } from "../entry/programRun.ts";
import type { Draft } from "../record/draft.ts";
import { portionOf, withAnotherPortion } from "./portions.ts";
import { ranWords } from "./ranWords.ts";
import { handsFree, type Run, refuse } from "./run.ts";
import { withItem } from "./trail.ts";
import { inStage } from "./weigh.ts";

const unweighed = (run: Run): boolean => run.draft.weighings.some((w) => w.fullG === null);

const MINUTE_S = 60;

/** Seconds of the check minute still to go at a moment; null when none was begun. */
export function minuteToGo({ checkMinute }: Draft, nowMs: number): number | null {
  if (!checkMinute) return null;
  return Math.min(MINUTE_S, Math.max(0, MINUTE_S - (nowMs - Date.parse(checkMinute.at)) / 1000));
}

/** What the shaker did otherwise than its program says goes on record, and is judged. */
export function ranOtherwise(run: Run, ran: RunOtherwise, at: string): Run {
  const item = { at, field: "ran", from: null, to: ranWords(ran) } as const;
  return { ...handsFree(run), draft: withItem({ ...run.draft, ran: { ...run.draft.ran, ...ran } }, item) };
}

/** Every sieve is emptied and the next portion goes on the shaker; what the sieves held is kept and summed. */
export function portionAdded(run: Run, at: string): Run {
  if (unweighed(run)) return refuse(run, "weigh every sieve and the pan of this portion first");
  if (run.draft.checkMinute) {
    return refuse(
      run,
      "this portion's check minute would be lost: sieve all portions, then check the last one (u takes it back)",
    );
  }
  const portion = portionOf(run.draft);
  const item = { at, field: "portion", from: portion, to: portion + 1 } as const;
  return inStage({ ...run, draft: withItem(withAnotherPortion(run.draft), item) }, "shake");
}

/** One more minute for the whole stack; the sieves are weighed again from the top, and Enter alone keeps a mass. */
export function checkMinuteStarted(run: Run, at: string): Run {
  if (unweighed(run)) return refuse(run, "weigh every sieve and the pan first");
  const before = run.draft.weighings.map(({ apertureUm, fullG }) => ({ apertureUm, fullG: fullG ?? 0 }));
  const item = { at, field: "checkMinute", from: null, to: "started" } as const;
  const draft = withItem({ ...run.draft, checkMinute: { at, before } }, item);
  return inStage({ ...run, draft }, "weigh full");
}
