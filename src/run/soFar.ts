import { assessTest, curveOf } from "../assess/assessTest.ts";
import type { Assessment } from "../assess.ts";
import { judgeLimit } from "../envelope/judge.ts";
import { type JudgedLimit, type Limit, limitName, limitsOf } from "../envelope/limit.ts";
import { choicesOf } from "../grading/choices.ts";
import { type RunningRow, recoveredSoFarG, runningRows } from "../grading/running.ts";
import type { Decision } from "../record/decision.ts";
import { determined } from "../record/determination.ts";
import type { Draft } from "../record/draft.ts";
import { ruleOf } from "../uncertainty/decision/ruleOf.ts";

export { envelopeOf } from "../envelope/passingBounds.ts";

/** A row of the stack while it is being weighed, with its limit on passing %, judged as soon as that is known. */
export interface RowSoFar extends RunningRow {
  readonly limit: (Pick<JudgedLimit, "min" | "max"> & { readonly result?: JudgedLimit["result"] }) | null;
}

/** What is known of a test while masses are still missing. */
export interface SoFar {
  readonly rows: readonly RowSoFar[];
  readonly recoveredG: number;
  readonly points: readonly { readonly apertureUm: number; readonly passingPct: number }[];
  readonly passingAt: (sizeUm: number) => number | null;
}

/** The limit on what passes a sieve: judged by the assessment once there is one; until then a guarded one is not judged. */
function limitOn(row: RunningRow, { limits, decision, final }: Judging): RowSoFar["limit"] {
  const limit = limits.find(({ on }) => on.kind === "passingPct" && on.apertureUm === row.apertureUm);
  if (!limit) return null;
  const judged = final?.verdict.limits.find(({ on }) => on === limitName(limit.on));
  if (judged) return judged;
  const undecided = row.passingPct === null || ruleOf(decision, limit.decision).kind !== "simple";
  if (undecided) return { min: limit.min, max: limit.max };
  return judgeLimit(limit, determined(row.passingPct ?? 0, "%"), decision);
}

interface Judging {
  readonly limits: readonly Limit[];
  readonly decision: Decision;
  /** The assessment, once all masses are known. */
  readonly final: Assessment | null;
}

/** All masses known: the percentages of the assessment itself, so that screen and record never differ. */
function finalPassing(final: Assessment | null, rows: readonly RunningRow[]): readonly RunningRow[] {
  if (final === null) return rows;
  const passingPct = new Map(final.fractions.map((f) => [f.apertureUm, f.passingPct]));
  return rows.map((row) => ({ ...row, passingPct: passingPct.get(row.apertureUm) ?? null }));
}

function finalOf(draft: Draft, rows: readonly RunningRow[]): Assessment | null {
  if (rows.some((row) => row.netG === null)) return null;
  const assessed = assessTest(draft);
  return assessed.ok ? assessed.value : null;
}

function curveSoFar(draft: Draft, rows: readonly RunningRow[]): SoFar["passingAt"] {
  const { interpolation } = choicesOf(draft.product, {});
  const fractions = rows.flatMap(({ apertureUm, emptyG, fullG, netG, passingPct }) =>
    netG === null || passingPct === null
      ? []
      : [{ apertureUm, emptyG, fullG, netG, passingPct, retainedPct: 0, coarserPct: 100 - passingPct }],
  );
  return curveOf({ fractions, interpolation });
}

/**
 * A test in progress as far as it is known: net masses at once; passing % of the charge if it was weighed, row by row
 * from the top; and, once all is weighed, the figures of the assessment.
 */
export function soFarOf(draft: Draft): SoFar {
  const weighed = runningRows(draft.weighings, draft.chargeG);
  const final = finalOf(draft, weighed);
  const running = finalPassing(final, weighed);
  const judging = { limits: limitsOf(draft.product), decision: draft.product.decision ?? { rule: "simple" }, final };
  const rows = running.map((row) => ({ ...row, limit: limitOn(row, judging) }));
  const points = rows.flatMap(({ apertureUm, passingPct }) =>
    apertureUm === 0 || passingPct === null ? [] : [{ apertureUm, passingPct }],
  );
  return { rows, recoveredG: recoveredSoFarG(running), points, passingAt: curveSoFar(draft, running) };
}
