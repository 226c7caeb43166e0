import type { Draft } from "../../record/draft.ts";
import { isPractice } from "../../record/practice.ts";
import { reduceRun } from "../../run/reduce.ts";
import type { Run, RunEvent } from "../../run/run.ts";
import type { App, Effect, Step } from "../place.ts";
import { here } from "../room.ts";

/** The drafts on the bench with this one brought up to date; the longest waiting first. */
const keeping = (drafts: readonly Draft[], draft: Draft): Draft[] =>
  [...drafts.filter((d) => d.testId !== draft.testId), draft].toSorted((a, b) =>
    a.startedAt.localeCompare(b.startedAt),
  );

/** The app with the run as it now is; a changed draft goes to disk before its next prompt shows, a practice one nowhere. */
export function withRun(app: App, run: Run): Step {
  const place = here(app, "run");
  const changed = run.draft !== place.run.draft;
  const view = run.draft.stage === place.run.draft.stage ? place.view : 0;
  const learning: Effect[] =
    run.draft.product === place.run.draft.product ? [] : [{ do: "learnUsual", product: run.draft.product }];
  const next: App = { ...app, message: null, place: { ...place, run, view } };
  if (isPractice(run.draft)) return { app: { ...next, practice: run.draft }, effects: learning };
  const known = run.draft.trail.length > 0;
  const drafts = changed && known ? keeping(app.drafts, run.draft) : app.drafts;
  const effects: Effect[] = changed && known ? [{ do: "save", draft: run.draft }] : [];
  return { app: { ...next, drafts }, effects: [...effects, ...learning] };
}

/** The run after an event. */
export const follow = (app: App, event: RunEvent): Step => withRun(app, reduceRun(here(app, "run").run, event));

/** Whether everything accepted in this draft is safely on disk; nothing of a practice test is to be. */
export const isSaved = (app: Pick<App, "saved">, draft: Draft): boolean =>
  isPractice(draft) || (app.saved.get(draft.testId) ?? 0) >= draft.trail.length;

/** The mark of the row in hand: while its last entry is on its way to disk, and where the disk refused it. */
export function markerOf(app: App, draft: Draft): string {
  if (draft.trail.length === 0 || isSaved(app, draft)) return "▸";
  return app.notOnDisk ? "!" : "…";
}
