import type { JudgedLimit } from "../envelope/limit.ts";
import type { RetestWay } from "../record/product.ts";
import type { ProductVerdict, TestVerdict } from "../record/test.ts";

/** One recorded test of a lot, as it is to be read today. */
export interface LotTest {
  readonly number: number;
  readonly at: string;
  readonly test: TestVerdict;
  readonly product: ProductVerdict;
  readonly limits: readonly JudgedLimit[];
  readonly voided: boolean;
  readonly waived: boolean;
  /** How it came about where it repeats another test of the lot; absent where that was not said. */
  readonly retest?: { readonly way: RetestWay; readonly number: number };
  /** The lot that it bears since a correction; absent while it bears this one. */
  readonly movedTo?: string;
}

/** Whether a test of a lot says something of it: valid or waived, not void, and not of another lot since a correction. */
export const countsForLot = ({ test, voided, waived, movedTo }: LotTest): boolean =>
  !voided && movedTo === undefined && (test !== "invalid" || waived);
