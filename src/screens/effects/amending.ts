import { type Amending, isAmendment } from "../../record/amendmentRefusal.ts";
import type { Draft } from "../../record/draft.ts";
import * as answers from "../answers.ts";
import { testAmended, testEnded } from "../record/amended.ts";
import type { Desk } from "./desk.ts";
import { keepBack } from "./keepBack.ts";

/** Records what is said of a test, and shows the test as it reads from now on. */
export async function amend(desk: Desk, amending: Amending, by: string): Promise<void> {
  const recorded = await desk.store.record({ ...amending, at: desk.now(), by });
  if (!recorded.ok) return desk.show(answers.notRecorded(desk.app(), recorded.reason));
  const history = await desk.store.history(amending.of);
  const rows = await desk.store.indexRows(amending.of.day.slice(0, 7));
  const row = rows.find(({ number }) => number === amending.of.number);
  if (!history.ok || !isAmendment(recorded.value)) return;
  const { holds, trouble } = await keepBack(desk, history.value, by);
  const app = { ...testAmended(desk.app(), recorded.value, history.value, row), holds };
  desk.show(trouble === null ? app : { ...app, message: trouble });
}

/** Ends a test in work: its draft goes once the entry with all that was entered is on disk. */
export async function endTest(desk: Desk, draft: Draft, reason: string, by: string): Promise<void> {
  const { schema: _schema, stage, ...test } = draft;
  const recorded = await desk.store.record({ kind: "test ended", at: desk.now(), by, stage, test, reason });
  if (!recorded.ok) return desk.show(answers.notRecorded(desk.app(), recorded.reason));
  if (recorded.value.kind === "test ended") desk.show(testEnded(desk.app(), recorded.value));
}
