import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { Change } from "../record/amendment.ts";
import { type Amending, amendmentRefusal, correctedTest } from "../record/amendmentRefusal.ts";
import type { TestEntry } from "../record/logEntry.ts";
import type { TestRecord } from "../record/test.ts";
import type { TestRef } from "../record/testRef.ts";
import { standingOf, type TestHistory } from "../record/versions.ts";
import { releaseRefusal } from "../shift/holdReason.ts";
import { assessTest } from "./assessTest.ts";
import { signedAs } from "./signedAs.ts";

export type Correcting = Extract<Amending, { kind: "correction" }>;

/** How a later entry names the test that it is about. */
export const refTo = ({ day, number, test }: Pick<TestEntry, "day" | "number" | "test">): TestRef => ({
  testId: test.testId,
  day,
  number,
});

/**
 * The test as it reads with changes, judged anew: `signed` holds the verdicts that this version of the program computes,
 * with the model of uncertainty of today where a mass changes, else with that by which the test was signed.
 * Refused when a change does not fit what stands there today, when nothing changes, when the corrected test can't be
 * assessed, and when it would release a product on a fail, or on an invalid test that nobody waived.
 */
export function corrected(history: TestHistory, changes: readonly Change[], program: string): Outcome<TestRecord> {
  const changed = correctedTest(history, changes);
  if (!changed.ok) return changed;
  const { signed, ...unsigned } = changed.value;
  const weighedAnew = changes.some(isOfMass);
  const assessed = assessTest(weighedAnew ? unsigned : changed.value);
  if (!assessed.ok) return refused(`corrected like that it can't be assessed: ${assessed.reason}`);
  const { verdict } = assessed.value;
  const releases = changes.some((change) => change.field === "disposition" && change.to === "release");
  const refusal = releases ? releaseRefusal({ ...verdict, disposition: "release" }, standingOf(history).waived) : null;
  if (refusal !== null) return refused(refusal);
  const anew = signedAs(assessed.value, program);
  return accepted({ ...changed.value, signed: weighedAnew ? anew : withModelOf(signed, anew) });
}

const isOfMass = ({ field }: Change): boolean => field.endsWith("G");

/** What is said of the lot or in a remark lets guarded limits stand as they were decided: by the model of then, or by none. */
function withModelOf({ budget }: TestRecord["signed"], anew: TestRecord["signed"]): TestRecord["signed"] {
  const { budget: _today, ...verdicts } = anew;
  return budget === undefined ? verdicts : { ...verdicts, budget };
}

/** The entry that corrects a test: what changes, why, and the verdicts that follow. Refused as `corrected` is. */
export function correctionOf(
  history: TestHistory,
  changes: readonly Change[],
  reason: string,
  program: string,
): Outcome<Correcting> {
  const test = corrected(history, changes, program);
  if (!test.ok) return test;
  const { signed } = test.value;
  return accepted({ kind: "correction", of: refTo(history.entry), changes: [...changes], reason, signed });
}

/**
 * Why a later entry about a test can't be recorded, in words; null when it can. Besides `amendmentRefusal`: the verdicts
 * that a correction states must be those of the corrected test.
 */
export function amendingRefusal(history: TestHistory, amending: Amending): string | null {
  const unfit = amendmentRefusal(history, amending);
  if (unfit !== null || amending.kind !== "correction") return unfit;
  const { program, ...stated } = amending.signed;
  const test = corrected(history, amending.changes, program);
  if (!test.ok) return test.reason;
  const { signed } = test.value;
  const same =
    stated.test === signed.test && stated.product === signed.product && Object.is(stated.lossPct, signed.lossPct);
  if (same && stated.budget !== signed.budget)
    return "the correction does not say by which model of uncertainty its verdicts were computed";
  return same
    ? null
    : `the correction states other verdicts than follow: test ${signed.test}, product ${signed.product}`;
}
