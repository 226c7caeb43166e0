import type { Tested } from "../../assess/assessTest.ts";
import type { Product } from "../../record/product.ts";
import type { LatestTests } from "../../store/latestTests.ts";

/** What it takes to judge the limits of a product. */
export interface PlanPlace {
  readonly name: "plan";
  readonly product: Product;
  /** A test in work whose own curve can stand for the product; null: none was in hand. */
  readonly inHand: (Tested & { readonly lot: string }) | null;
  /** The newest tests of the product; null while they are being read. */
  readonly latest: LatestTests | null;
  readonly from: "newest tests" | "test in hand";
  readonly riskPct: number;
  /** The charge in question where it is not that of the tests. */
  readonly chargeG: number | null;
  readonly typed: string;
  readonly at: number;
}

export interface PlanEffect {
  readonly do: "readPlan";
  readonly product: string;
}
