import { assess } from "../assess.ts";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { netOfWeighingG } from "../grading/netMass.ts";
import { passingAt } from "../grading/passingAt.ts";
import { type ConductedTest, conductOf } from "../procedure/conductOf.ts";
import type { TestRecord } from "../record/test.ts";
import type { Assessment, Weighed } from "./assessment.ts";
import { rowName } from "./levelled.ts";

/** What of a test, in progress or recorded, bears on its assessment. */
export type Tested = ConductedTest & Pick<TestRecord, "weighings" | "chargeG" | "washedG" | "product" | "balance">;

/** What a test weighed, as fractions; a weighing that is missing makes the test not assessable. */
export function weighedIn(test: Tested): Outcome<Weighed> {
  const missing = test.weighings.find((w) => w.emptyG === null || w.fullG === null);
  if (missing) return refused(`${rowName(missing.apertureUm)} is not weighed yet`);
  const fractions = test.weighings.map((weighing) => {
    const { apertureUm, emptyG, fullG } = weighing;
    return { apertureUm, emptyG, fullG, netG: netOfWeighingG(weighing) ?? 0 };
  });
  return accepted({ fractions, chargeG: test.chargeG, washedG: test.washedG ?? null, conduct: conductOf(test) });
}

/** Records and drafts are never changed in place, so what one was assessed as holds as long as it exists. */
const ASSESSED = new WeakMap<Tested, Outcome<Assessment>>();

/** A test, in progress or recorded, against its own copy of the product revision. */
export function assessTest(test: Tested): Outcome<Assessment> {
  const known = ASSESSED.get(test);
  if (known) return known;
  const weighed = weighedIn(test);
  const found = weighed.ok ? assess(weighed.value, test.product, { readabilityG: test.balance.readabilityG }) : weighed;
  ASSESSED.set(test, found);
  return found;
}

/** The passing curve of an assessment at any size: % passing, or null outside the sieves. */
export const curveOf =
  ({ fractions, interpolation }: Pick<Assessment, "fractions" | "interpolation">) =>
  (sizeUm: number): number | null => {
    const passing = passingAt({ rows: fractions }, sizeUm, interpolation);
    return passing.determinable ? passing.value : null;
  };
