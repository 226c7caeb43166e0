import type { Draft } from "../../record/draft.ts";
import * as answers from "../answers.ts";
import type { Desk } from "./desk.ts";

export async function save(desk: Desk, draft: Draft): Promise<void> {
  const saved = await desk.store.saveDraft(draft);
  desk.show(saved.ok ? answers.draftSaved(desk.app(), draft) : answers.draftNotSaved(desk.app(), saved.reason));
}

export async function drop(desk: Desk, { testId }: Draft): Promise<void> {
  const dropped = await desk.store.dropDraft(testId);
  desk.show(dropped.ok ? answers.draftDropped(desk.app(), testId) : { ...desk.app(), message: dropped.reason });
}
