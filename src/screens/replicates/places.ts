import type { RepeatedTest } from "../../assess/repeatedTests.ts";

/** Tests of a lot looked at together: how they scatter. */
export interface ReplicatesPlace {
  readonly name: "replicates";
  readonly product: string;
  readonly lot: string;
  readonly tests: readonly RepeatedTest[];
  /** Numbers of those that the operator has taken out of the figures. */
  readonly out: readonly number[];
  /** The test and the figure in hand. */
  readonly test: number;
  readonly at: number;
}
