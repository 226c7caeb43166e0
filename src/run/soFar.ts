import { assessTest, curveOf } from "../assess/assessTest.ts";
import { meansOfTest, otherApertures, overMeans } from "../assess/drawnOver.ts";
import type { Assessment } from "../assess.ts";
import { judgeLimit } from "../envelope/judge.ts";
import { type JudgedLimit, type Limit, limitName, limitsOf } from "../envelope/limit.ts";
import { choicesOf } from "../grading/choices.ts";
import type { GradedFraction } from "../grading/grading.ts";
import { type RunningRow, recoveredSoFarG, runningRows } from "../grading/running.ts";
import { asDrawn } from "../grading/standsAt.ts";
import { isBelow } from "../procedure/compare.ts";
import type { Decision } from "../record/decision.ts";
import { determined } from "../record/determination.ts";
import type { Draft } from "../record/draft.ts";
import { ruleOf } from "../uncertainty/decision/ruleOf.ts";

export { envelopeOf } from "../envelope/passingBounds.ts";

type Share = "passingPct" | "retainedPct" | "coarserPct";

/** A row of the stack while it is being weighed, with the limit on what passes, stays or is coarser, judged once that is known. */
export interface RowSoFar extends RunningRow {
  readonly limit:
    | (Pick<JudgedLimit, "min" | "max"> & { readonly result?: JudgedLimit["result"]; readonly of: Share })
    | null;
  /** More was recovered than was put on: what passes cannot be below 0. */
  readonly impossible: boolean;
}

/** Shown as 0.0 %: while finer rows are missing this says only that all of the charge is accounted for. */
const ALL_FOUND_PCT = 0.05;
const SHARES: readonly Share[] = ["passingPct", "retainedPct", "coarserPct"];

/** What is known of a test while masses are still missing. */
export interface SoFar {
  readonly rows: readonly RowSoFar[];
  readonly recoveredG: number;
  readonly points: readonly { readonly apertureUm: number; readonly passingPct: number }[];
  readonly passingAt: (sizeUm: number) => number | null;
}

const isImpossible = ({ passingPct }: RunningRow): boolean => passingPct !== null && isBelow(passingPct, 0);

/** A share in % of the charge while masses are missing; null while it means nothing yet. */
function shareSoFar({ passingPct, netG, ...row }: RunningRow, of: Share, chargeG: number | null): number | null {
  const telling = passingPct !== null && passingPct >= ALL_FOUND_PCT;
  if (!telling || netG === null || chargeG === null || row.apertureUm === 0) return null;
  if (of === "retainedPct") return (100 * netG) / chargeG;
  return of === "passingPct" ? passingPct : 100 - passingPct;
}

/** The limit on a sieve: judged by the assessment once there is one; until then a guarded one, and one off the sieve, is not. */
function limitOn(row: RunningRow, { limits, decision, final, chargeG, overOthers }: Judging): RowSoFar["limit"] {
  const ofRow = limits.filter(({ on }) => "apertureUm" in on && on.apertureUm === row.apertureUm);
  const of = SHARES.find((share) => ofRow.some(({ on }) => on.kind === share));
  const limit = ofRow.find(({ on }) => on.kind === of);
  if (of === undefined || !limit) return null;
  const judged = final?.verdict.limits.find(({ on }) => on === limitName(limit.on));
  if (judged) return { ...judged, of };
  const found = shareSoFar(row, of, chargeG);
  const undecided = found === null || overOthers || ruleOf(decision, limit.decision).kind !== "simple";
  if (undecided) return { min: limit.min, max: limit.max, of };
  return { ...judgeLimit(limit, determined(found, "%"), decision), of };
}

interface Judging {
  readonly limits: readonly Limit[];
  readonly decision: Decision;
  readonly chargeG: number | null;
  /** The curve is drawn over other apertures than nominal ones: until all is weighed nothing is known at these. */
  readonly overOthers: boolean;
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

/** The rows whose share is known, each where it stands. */
function fractionsSoFar(draft: Draft, rows: readonly RunningRow[]): readonly GradedFraction[] {
  const means = meansOfTest(draft);
  const fractions = rows.flatMap(({ apertureUm, emptyG, fullG, netG, passingPct }) =>
    netG === null || passingPct === null
      ? []
      : [{ apertureUm, emptyG, fullG, netG, passingPct, retainedPct: 0, coarserPct: 100 - passingPct }],
  );
  return means === null ? fractions : overMeans(fractions, means);
}

/**
 * A test in progress as far as it is known: net masses at once; passing % of the charge if it was weighed, row by row
 * from the top; and, once all is weighed, the figures of the assessment.
 */
export function soFarOf(draft: Draft): SoFar {
  const weighed = runningRows(draft.weighings, draft.chargeG);
  const final = finalOf(draft, weighed);
  const running = finalPassing(final, weighed);
  const { product, chargeG } = draft;
  const overOthers = otherApertures(product) !== null;
  const judging = {
    limits: limitsOf(product),
    decision: product.decision ?? ({ rule: "simple" } as const),
    chargeG,
    overOthers,
    final,
  };
  const rows = running.map((row) => ({ ...row, limit: limitOn(row, judging), impossible: isImpossible(row) }));
  const fractions = fractionsSoFar(draft, running);
  const points = asDrawn(fractions)
    .filter(({ apertureUm }) => apertureUm > 0)
    .map(({ apertureUm, passingPct }) => ({ apertureUm, passingPct }));
  const passingAt = curveOf({ fractions, interpolation: choicesOf(product, {}).interpolation });
  return { rows, recoveredG: recoveredSoFarG(running), points, passingAt };
}
