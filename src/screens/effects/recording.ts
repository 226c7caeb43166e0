import type { Assessment } from "../../assess.ts";
import type { BalanceCheck } from "../../record/checks.ts";
import type { Draft } from "../../record/draft.ts";
import type { TestEntry } from "../../record/logEntry.ts";
import { holdReason, USUAL_OWNER } from "../../shift/holdReason.ts";
import { holdOn, openHolds } from "../../shift/holds.ts";
import { indexRowOf } from "../../store/indexRowOf.ts";
import * as answers from "../answers.ts";
import type { Desk } from "./desk.ts";

export async function record(desk: Desk, draft: Draft, by: string, { verdict, lossPct }: Assessment): Promise<void> {
  const { schema: _schema, stage: _stage, ...test } = draft;
  const at = desk.now();
  const signed = { program: desk.programVersion, test: verdict.test, product: verdict.product, lossPct };
  const entry = await desk.store.record({ kind: "test", at, by, test: { ...test, finishedAt: at, by, signed } });
  if (!entry.ok) return desk.show(answers.notRecorded(desk.app(), entry.reason));
  if (entry.value.kind !== "test") return;
  const held = await keptBack(desk, entry.value, verdict);
  desk.show(answers.testRecorded(desk.app(), entry.value, indexRowOf(entry.value), held));
}

/** What is out of limits keeps its lot back; a lot that is on hold already stays so by the first hold. */
async function keptBack(desk: Desk, { test, day, number, by }: TestEntry, verdict: Assessment["verdict"]) {
  const { disposition, lot, line, testId, product } = test;
  const reason = holdReason({ ...verdict, disposition });
  const open = openHolds(await desk.store.matters());
  if (reason === null || lot === "" || holdOn(open, product.code, lot) !== null) return open;
  const asked = { product: product.code, lot, line, of: { testId, day, number }, owner: USUAL_OWNER, reason };
  const hold = await desk.store.record({ kind: "hold opened", at: desk.now(), by, ...asked });
  return hold.ok && hold.value.kind === "hold opened" ? [...open, hold.value] : open;
}

export async function recordCheck(desk: Desk, check: BalanceCheck): Promise<void> {
  const entry = await desk.store.record({ kind: "balance check", at: check.at, by: check.by, check });
  desk.show(entry.ok ? answers.balanceChecked(desk.app(), check) : answers.notRecorded(desk.app(), entry.reason));
}
