import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { ReferenceCheck, ReferenceMaterial } from "../record/care.ts";
import type { TestRecord } from "../record/test.ts";
import { COMPONENT_IDS } from "../record/uncertainty.ts";
import { togetherU } from "../uncertainty/budget.ts";
import { COVERAGE_FACTOR } from "../uncertainty/interval.ts";
import { measurandName } from "../uncertainty/measurand.ts";
import type { Assessment } from "./assessment.ts";
import { assessTest } from "./assessTest.ts";

type Found = ReferenceCheck["found"][number];

const MOST_PCT = 100;

/** What is asked is the apertures, and a unit of material is no sample of a lot: neither may excuse a difference. */
const COUNTED = COMPONENT_IDS.filter((id) => id !== "apertures" && id !== "sampling");

/** Expanded (k = 2) uncertainty of what passed a sieve as it is, where the test's own budget tells one. */
function expandedPctOf({ howSure }: Assessment, apertureUm: number): number | null {
  const name = measurandName({ kind: "passingPct", apertureUm });
  const sure = howSure.budget.passing.find((one) => one.name === name);
  const u = sure?.determinable ? togetherU(sure.components, COUNTED) : null;
  return u === null ? null : Math.min(MOST_PCT, COVERAGE_FACTOR * u);
}

/** The test with its curve over nominal apertures: it is the sieves as they are that are asked about. */
function asWeighed(test: TestRecord): TestRecord {
  const { apertures, ...method } = test.product.method ?? {};
  return apertures === undefined ? test : { ...test, product: { ...test.product, method } };
}

/**
 * A recorded test of a certified material as a reference check: what each of its sieves passed, with the serial that the
 * test carries and the expanded uncertainty of its own budget, apertures and sampling left out. Nothing is judged here.
 *
 * @returns the check to record, coarsest sieve first; or why the test can't serve as one
 */
export function referenceRun(test: TestRecord, material: ReferenceMaterial): Outcome<ReferenceCheck> {
  const assessed = assessTest(asWeighed(test));
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
