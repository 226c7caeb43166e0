import { assessTest, curveOf } from "../assess/assessTest.ts";
import { judgeLimit } from "../envelope/judge.ts";
import { type JudgedLimit, type Limit, limitsOf } from "../envelope/limit.ts";
import { choicesOf } from "../grading/choices.ts";
import { type RunningRow, recoveredSoFarG, runningRows } from "../grading/running.ts";
import { determined } from "../record/determination.ts";
import type { Draft } from "../record/draft.ts";
import type { Product } from "../record/product.ts";

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

function limitOn(row: RunningRow, limits: readonly Limit[], product: Product): RowSoFar["limit"] {
  const limit = limits.find(({ on }) => on.kind === "passingPct" && on.apertureUm === row.apertureUm);
  if (!limit) return null;
  if (row.passingPct === null) return { min: limit.min, max: limit.max };
  return judgeLimit(limit, determined(row.passingPct, "%"), product.decision ?? { rule: "simple" });
}

/** All masses known: the percentages of the assessment itself, so that screen and record never differ. */
function finalPassing(draft: Draft, rows: readonly RunningRow[]): readonly RunningRow[] {
  if (rows.some((row) => row.netG === null)) return rows;
  const assessed = assessTest(draft);
  if (!assessed.ok) return rows;
  const passingPct = new Map(assessed.value.fractions.map((f) => [f.apertureUm, f.passingPct]));
  return rows.map((row) => ({ ...row, passingPct: passingPct.get(row.apertureUm) ?? null }));
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
  const running = finalPassing(draft, runningRows(draft.weighings, draft.chargeG));
  const limits = limitsOf(draft.product);
  const rows = running.map((row) => ({ ...row, limit: limitOn(row, limits, draft.product) }));
  const points = rows.flatMap(({ apertureUm, passingPct }) =>
    apertureUm === 0 || passingPct === null ? [] : [{ apertureUm, passingPct }],
  );
  return { rows, recoveredG: recoveredSoFarG(running), points, passingAt: curveSoFar(draft, running) };
}
