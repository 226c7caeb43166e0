import type { TestRecord } from "../record/test.ts";
import { BUDGET_MODEL } from "../record/uncertainty.ts";
import type { Assessment } from "./assessment.ts";

/** The verdicts as they are signed for: with the program and the model of uncertainty that computed them. */
export const signedAs = (
  { verdict, lossPct }: Pick<Assessment, "verdict" | "lossPct">,
  program: string,
): TestRecord["signed"] => ({
  program,
  test: verdict.test,
  product: verdict.product,
  lossPct,
  budget: BUDGET_MODEL,
});
