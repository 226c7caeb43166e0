import type { Change } from "../record/amendment.ts";
import type { TestRecord } from "../record/test.ts";
import { chargeDoubt } from "./chargeDoubt.ts";
import { doubtOf } from "./doubt.ts";
import type { Run } from "./run.ts";
import { NOTHING_USUAL } from "./usual.ts";

/** A recorded test as if it were still being weighed, hands on one of its rows. */
function asRun(test: TestRecord, stage: "weigh empty" | "weigh full", at: number): Run {
  const { finishedAt: _finishedAt, by: _by, signed: _signed, balance, ...fields } = test;
  const draft = { schema: "sievewright.draft/1" as const, ...fields, balance, stage, trail: [] };
  const setting = { last: new Map(), products: [], programs: [], lines: [], samplingPoints: [] };
  return { draft, at, typed: "", doubt: null, message: null, setting: { ...setting, usual: NOTHING_USUAL, balance } };
}

/** A row that is asked about must not hold the mass already. */
function unweighed(test: TestRecord, at: number, column: "emptyG" | "fullG"): TestRecord {
  return { ...test, weighings: test.weighings.map((row, i) => (i === at ? { ...row, [column]: null } : row)) };
}

/**
 * Why a corrected mass can't be right either, by the questions that a mass is asked when it is weighed; null when nothing
 * speaks against it. What is usual for the product is not asked: the test may be years old.
 *
 * @param test as it reads with the change made
 */
export function correctionDoubt(test: TestRecord, change: Change): string | null {
  if (change.field === "chargeG") {
    const { draft } = asRun(test, "weigh full", 0);
    return change.to === null ? null : chargeDoubt(draft, change.to, NOTHING_USUAL);
  }
  if (change.field !== "emptyG" && change.field !== "fullG") return null;
  const at = test.weighings.findIndex(({ apertureUm }) => apertureUm === change.apertureUm);
  const row = test.weighings[at];
  if (row === undefined) return null;
  const ofEmpty =
    change.field === "emptyG" && row.emptyG !== null
      ? doubtOf(asRun(unweighed(test, at, "emptyG"), "weigh empty", at), row.emptyG)
      : null;
  const ofFull = row.fullG === null ? null : doubtOf(asRun(unweighed(test, at, "fullG"), "weigh full", at), row.fullG);
  return ofEmpty ?? ofFull;
}
