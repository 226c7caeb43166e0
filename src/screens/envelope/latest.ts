import { assessTest, curveOf } from "../../assess/assessTest.ts";
import type { Assessment } from "../../assess.ts";
import type { PassingPoint } from "../../chart/passingChart.ts";
import type { EditedOn } from "../../envelope/revisions/edits.ts";
import { shareAtNominal } from "../../grading/nominalShare.ts";
import { asDrawn } from "../../grading/standsAt.ts";
import type { Determination } from "../../record/determination.ts";
import type { TestRecord } from "../../record/test.ts";

/** What the latest test of the product found, to be held against the limits in hand. */
export interface Latest {
  readonly points: readonly PassingPoint[];
  readonly passingAt: (sizeUm: number) => number | null;
  /** The figure that a limit would be put on; null where this test has none. */
  readonly figure: (on: EditedOn) => number | null;
}

const NOTHING: Latest = { points: [], passingAt: () => null, figure: () => null };

const numberOf = (found: Determination | null | undefined): number | null => (found?.determinable ? found.value : null);

function figureIn(assessment: Assessment, on: EditedOn): number | null {
  if (on.kind === "aperture")
    return numberOf(shareAtNominal(on.share, on.apertureUm, { rows: assessment.fractions }, assessment.interpolation));
  const { wish } = on;
  const found =
    wish.id === "percentileUm" ? assessment.percentilesUm[String(wish.passingPct)] : assessment.values[wish.id];
  return numberOf(found);
}

/** A recorded test as its figures; nothing where there is none or it can't be assessed. */
export function latestOf(test: TestRecord | null): Latest {
  const assessed = test === null ? null : assessTest(test);
  if (!assessed?.ok) return NOTHING;
  const { fractions } = assessed.value;
  return {
    points: asDrawn(fractions).filter(({ apertureUm }) => apertureUm > 0),
    passingAt: curveOf(assessed.value),
    figure: (on) => figureIn(assessed.value, on),
  };
}
