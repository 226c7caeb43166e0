import type { JudgedLimit } from "../envelope/limit.ts";
import type { ChoiceOverrides } from "../grading/choices.ts";
import type { Fraction, GradedFraction } from "../grading/grading.ts";
import type { ModelFits } from "../grading/models/fit.ts";
import type { RuleInForce } from "../procedure/rules/inForce.ts";
import type { ProcedureCheck } from "../procedure/verdict/check.ts";
import type { ProcedureFacts } from "../procedure/verdict/facts.ts";
import type { ChangedSieve } from "../record/changedSieves.ts";
import type { Decision } from "../record/decision.ts";
import type { Determination } from "../record/determination.ts";
import type { Severity } from "../record/procedure.ts";
import type { Basis, Interpolation } from "../record/product.ts";
import type { TakenOver } from "../record/takenOver.ts";
import type { ProductVerdict, TestVerdict } from "../record/test.ts";
import type { ValueId } from "../record/valueIds.ts";
import type { KnownOfTest } from "../uncertainty/conditionsOf.ts";
import type { DrawnOver, SieveMean } from "./drawnOver.ts";
import type { Draws, HowSure } from "./howSure.ts";

/** Something the operator must know about this test, in words for three in the morning. */
export interface Notice {
  readonly id: string;
  readonly severity: Severity;
  readonly text: string;
  /** What was found, and what is allowed, with units; null or absent where there is no figure. */
  readonly found?: string | null;
  readonly limit?: string | null;
  readonly rule?: string;
  readonly source?: string;
  /** What to do now, as an order. */
  readonly remedy?: string;
}

/** What is known of how the test was run, besides its masses; what is absent was not noted or not looked at. */
export type Conduct = Partial<
  Pick<
    ProcedureFacts,
    "moisturePct" | "balance" | "endPoint" | "program" | "run" | "sieves" | "usualEmptyG" | "mostHeldG"
  >
>;

/** What was weighed: every fraction, in any order, and the dry mass put on (and left after washing), where known. */
export interface Weighed {
  readonly fractions: readonly Fraction[];
  readonly chargeG: number | null;
  readonly washedG: number | null;
  /** The pan was not weighed: it is what the charge leaves over, so no loss can be told. */
  readonly panAssumed?: boolean;
  readonly conduct?: Conduct;
  /** Empty masses that were not weighed in this test but in an earlier one. */
  readonly takenOver?: readonly TakenOver[];
  /** Sieves that were cleaned or repaired between their empty and their full weighing. */
  readonly changed?: readonly ChangedSieve[];
}

/** What else bears on the numbers: the balance, and choices made for this one run of them. */
export interface Circumstances extends ChoiceOverrides {
  readonly readabilityG: number;
  /** Nobody said which balance it was: the readability is taken for weighings just below empty, and judges nothing. */
  readonly balanceUnknown?: boolean;
  /** What is known of balance and sieves for the uncertainty; what is absent is not included. */
  readonly known?: KnownOfTest;
  /** The sieves with their mean apertures, for a product whose curve is drawn over these; without them none is known. */
  readonly means?: readonly SieveMean[];
  /** Draws check the first-order propagation, and take its place where they differ. */
  readonly draws?: Draws;
  /** The verdict is that of a program which knew no uncertainty: guarded limits decide nothing, as they did then. */
  readonly withoutBudget?: boolean;
}

export interface Assessment {
  readonly basis: Basis;
  readonly interpolation: Interpolation;
  /** Over which mean apertures the curve is drawn; absent where it is drawn over nominal ones. */
  readonly apertures?: DrawnOver;
  readonly chargeG: number | null;
  /** Dry mass after washing; null for a test that was not washed. */
  readonly washedG: number | null;
  readonly recoveredG: number;
  readonly lossG: number | null;
  readonly lossPct: number | null;
  readonly fractions: readonly GradedFraction[];
  /** By passing %: "5", "10", ... "95". */
  readonly percentilesUm: Readonly<Record<string, Determination>>;
  readonly values: Readonly<Record<ValueId, Determination>>;
  /** Fitted when first asked for: lists and trends never ask. */
  readonly models: ModelFits;
  /** How sure the numbers are and what that makes of the limits; worked out when first asked for. */
  readonly howSure: HowSure;
  readonly verdict: {
    readonly test: TestVerdict;
    readonly product: ProductVerdict;
    readonly limits: readonly JudgedLimit[];
  };
  /** The product revision that decided, and how values were compared with its limits; null without a product. */
  readonly judgedAgainst: {
    readonly code: string;
    readonly revision: number;
    readonly rule: Decision["rule"];
    readonly compare: NonNullable<Decision["compare"]>;
  } | null;
  /** By which rules the test itself was judged, and what each check found, in the order of the work. */
  readonly procedure: {
    readonly ruleSet: { readonly id: string; readonly title: string } | null;
    readonly checks: readonly Omit<ProcedureCheck, "notices">[];
    readonly rules: readonly RuleInForce[];
  };
  readonly notices: readonly Notice[];
}
