import type { GradedFraction } from "./grading/grading.ts";
import type { Determination } from "./record/determination.ts";
import type { Basis, Interpolation } from "./record/product.ts";
import type { ProductVerdict, TestVerdict } from "./record/test.ts";
import type { ValueId } from "./record/valueIds.ts";

export type Severity = "note" | "warning" | "invalidates";

/** Something the operator must know about this test, in words for three in the morning. */
export interface Notice {
  readonly id: string;
  readonly severity: Severity;
  readonly text: string;
}

export type LimitResult = "within" | "below" | "above" | "borderline" | "not determinable";

/** One limit of the product and what the test says of it. Limits are inclusive. */
export interface JudgedLimit {
  /** `passingPct@500`, `retainedPct@500`, `coarserPct@500`, `percentileUm@50` or a value id. */
  readonly on: string;
  readonly value: number | null;
  readonly min: number | null;
  readonly max: number | null;
  readonly result: LimitResult;
  /** Why it is not determinable, or that the value was read from the curve. */
  readonly reason?: string;
}

export interface Assessment {
  readonly basis: Basis;
  readonly interpolation: Interpolation;
  readonly chargeG: number | null;
  readonly recoveredG: number;
  readonly lossG: number | null;
  readonly lossPct: number | null;
  readonly fractions: readonly GradedFraction[];
  /** By passing %: "5", "10", ... "95". */
  readonly percentilesUm: Readonly<Record<string, Determination>>;
  readonly values: Readonly<Record<ValueId, Determination>>;
  readonly verdict: {
    readonly test: TestVerdict;
    readonly product: ProductVerdict;
    readonly limits: readonly JudgedLimit[];
  };
  readonly notices: readonly Notice[];
}
