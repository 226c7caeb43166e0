import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { ReferenceCheck, ReferenceMaterial } from "../record/care.ts";
import type { TestRecord } from "../record/test.ts";
import { measurandName } from "../uncertainty/measurand.ts";
import type { Assessment } from "./assessment.ts";
import { assessTest } from "./assessTest.ts";

type Found = ReferenceCheck["found"][number];

const MOST_PCT = 100;

/** Expanded (k = 2) uncertainty of what passed a sieve, where the test's own budget tells one. */
function expandedPctOf({ howSure }: Assessment, apertureUm: number): number | null {
  const name = measurandName({ kind: "passingPct", apertureUm });
  const sure = howSure.budget.passing.find((one) => one.name === name);
  const isKnown = sure?.determinable && sure.components.some(({ included }) => included);
  return isKnown ? Math.min(MOST_PCT, sure.U) : null;
}

/**
 * A recorded test of a certified material as a reference check: what each of its sieves passed, with the serial that the
 * test carries and the expanded uncertainty of its own budget. Nothing is judged here.
 *
 * @returns the check to record, coarsest sieve first; or why the test can't serve as one
 */
export function referenceRun(test: TestRecord, material: ReferenceMaterial): Outcome<ReferenceCheck> {
  const assessed = assessTest(test);
  if (!assessed.ok) return refused(`this test can't be assessed: ${assessed.reason}`);
  const { fractions, verdict } = assessed.value;
  if (verdict.test === "invalid") return refused("this test is invalid: it proves nothing of the sieves");
  const found = fractions
    .filter(({ apertureUm }) => apertureUm > 0)
    .map(({ apertureUm, passingPct }): Found => {
      const serial = test.weighings.find((w) => w.apertureUm === apertureUm)?.serial;
      const expandedPct = expandedPctOf(assessed.value, apertureUm);
      return {
        apertureUm,
        passingPct: Math.min(MOST_PCT, Math.max(0, passingPct)),
        ...(serial === undefined ? {} : { serial }),
        ...(expandedPct === null ? {} : { expandedPct }),
      };
    });
  if (found.length === 0) return refused("this test has no sieve, only a pan");
  return accepted({ did: "reference check", material, testId: test.testId, found });
}
