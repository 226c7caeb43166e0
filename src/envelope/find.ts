import type { Grading, GradingChoices } from "../grading/grading.ts";
import { passingAtNominal, type Share, shareAtNominal } from "../grading/nominalShare.ts";
import { percentileUm } from "../grading/percentile.ts";
import { type Determination, determined, undetermined } from "../record/determination.ts";
import type { ValueId } from "../record/valueIds.ts";
import type { LimitOn } from "./limit.ts";

/** What a limit can be looked up in: one test's grading, its values, and what the product allows. */
export interface Findings {
  readonly grading: Grading;
  readonly choices: GradingChoices;
  readonly values: Readonly<Record<ValueId, Determination>>;
  /** Whether passing % at an aperture that the stack lacks may be read from the curve. */
  readonly interpolateMissing: boolean;
}

const missing = (apertureUm: number) => `the stack has no ${apertureUm} um sieve`;

/** Passing or coarser % between two sieves, from the curve; what one absent sieve would have retained nobody knows. */
function readFromCurve(share: Share, apertureUm: number, findings: Findings): Determination {
  if (share === "retainedPct") return undetermined(`${missing(apertureUm)}, so what it retains is unknown`);
  if (!findings.interpolateMissing) {
    return undetermined(`${missing(apertureUm)} and this product does not allow reading it from the curve`);
  }
  const passing = passingAtNominal(findings.grading, apertureUm, findings.choices.interpolation);
  if (!passing.determinable) return passing;
  const read = share === "passingPct" ? passing.value : 100 - passing.value;
  return determined(read, "%", [`${apertureUm} um read from the curve (${findings.choices.interpolation})`]);
}

function atAperture(share: Share, apertureUm: number, findings: Findings): Determination {
  const { grading, choices } = findings;
  return (
    shareAtNominal(share, apertureUm, grading, choices.interpolation) ?? readFromCurve(share, apertureUm, findings)
  );
}

/** The number that a limit is put on, as this test found it, or why there is none. Never extrapolated. */
export function findFor(on: LimitOn, findings: Findings): Determination {
  if (on.kind === "value") return findings.values[on.id];
  if (on.kind === "percentileUm") {
    return percentileUm(findings.grading, on.passingPct, findings.choices.interpolation);
  }
  return atAperture(on.kind, on.apertureUm, findings);
}
