import { curveOf } from "../assess/assessTest.ts";
import type { Assessment } from "../assess.ts";
import { chartLegend, passingChart } from "../chart/passingChart.ts";
import { asDrawn } from "../grading/standsAt.ts";
import type { Product } from "../record/product.ts";
import { envelopeOf } from "../run/soFar.ts";
import { wrapped } from "./columns.ts";
import { bandOf } from "./sureFigures.ts";

const ROWS = 16;

/** The passing curve within its envelope, d50 marked, with a line above that says what the signs mean. */
export function pageCurve(assessment: Assessment, product: Product | null, width: number, ascii: boolean): string[] {
  const envelope = product ? envelopeOf(product) : [];
  const d50 = assessment.percentilesUm["50"];
  const marked = d50?.determinable ? { mark: { sizeUm: d50.value, passingPct: 50 } } : {};
  const band = bandOf(assessment.howSure);
  const legend = chartLegend({
    envelope: envelope.length > 0,
    band: band.length > 0,
    ...(d50?.determinable ? { mark: "d50" } : {}),
    ascii,
  });
  const drawn = passingChart({
    points: asDrawn(assessment.fractions).filter((fraction) => fraction.apertureUm > 0),
    envelope,
    band,
    passingAt: curveOf(assessment),
    ...marked,
    width,
    height: ROWS,
    ascii,
  });
  return [...wrapped(`passing % over aperture   ${legend}`, width, "  "), ...drawn.map((row) => row.trimEnd())];
}
