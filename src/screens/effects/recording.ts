import { signedAs } from "../../assess/signedAs.ts";
import type { Assessment } from "../../assess.ts";
import type { BalanceCheck } from "../../record/checks.ts";
import type { Draft } from "../../record/draft.ts";
import { indexRowOf } from "../../store/indexRowOf.ts";
import * as answers from "../answers.ts";
import { readCare } from "./care.ts";
import type { Desk } from "./desk.ts";
import { keepBack } from "./keepBack.ts";

export async function record(desk: Desk, draft: Draft, by: string, assessment: Assessment): Promise<void> {
  const { schema: _schema, stage: _stage, ...test } = draft;
  const at = desk.now();
  const signed = signedAs(assessment, desk.programVersion);
  const entry = await desk.store.record({ kind: "test", at, by, test: { ...test, finishedAt: at, by, signed } });
  if (!entry.ok) return desk.show(answers.notRecorded(desk.app(), entry.reason));
  if (entry.value.kind !== "test") return;
  const row = indexRowOf(entry.value);
  const { holds, trouble } = await keepBack(desk, { entry: entry.value, later: [] }, by);
  const app = answers.testRecorded(desk.app(), entry.value, row, holds);
  desk.show(trouble === null ? app : { ...app, message: trouble });
  await readCare(desk);
}

export async function recordCheck(desk: Desk, check: BalanceCheck): Promise<void> {
  const entry = await desk.store.record({ kind: "balance check", at: check.at, by: check.by, check });
  desk.show(entry.ok ? answers.balanceChecked(desk.app(), check) : answers.notRecorded(desk.app(), entry.reason));
  if (entry.ok) await readCare(desk);
}
