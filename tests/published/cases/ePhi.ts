import type { ValueId } from "../../../src/record/valueIds.ts";
import { passing } from "../../grading/stack.ts";
import { number } from "../../grading/values/valuesOf.ts";
import twenty from "../examples/e-20-gram-statistics.json" with { type: "json" };
import cem from "../examples/e-cem-iii-1-1.json" with { type: "json" };
import halfPhi from "../examples/e-half-phi-moments.json" with { type: "json" };
import { dUm, recomputedValues, stackOf } from "../fromExample.ts";
import type { PublishedCheck } from "../record.ts";

const umOf = (phi: number): number => 1000 * 2 ** -phi;

function cemChecks(): PublishedCheck[] {
  const { inputs, expected, recomputed, source } = cem;
  const at = (phi: number, coarserPct: number) => `${umOf(phi)}:${100 - coarserPct}`;
  const beach = passing(
    [
      at(0, 0),
      at(inputs.phi5, 5),
      at(inputs.phi16, 16),
      at(inputs.phi25, 25),
      at(inputs.phi50, 50),
      at(inputs.phi75, 75),
      at(inputs.phi84, 84),
      at(inputs.phi95, 95),
    ].join(" "),
  );
  const told = { source, status: "seen", tolerance: 0.005 } as const;
  const phi = (id: ValueId) => number(id, beach);
  const why =
    "The manual divides (phi95 - phi5) by 6.0; Folk and Ward, whom we follow, by 6.6. Its 0.64 is exact with 6.0.";
  return [
    { ...told, value: "median in mm", published: expected.median_mm, ours: dUm(beach, 50) / 1000 },
    { ...told, value: "graphic mean in phi", published: expected.mean_phi, ours: phi("phiGraphicMean") },
    { ...told, value: "graphic mean in mm", published: expected.mean_mm, ours: umOf(phi("phiGraphicMean")) / 1000 },
    {
      ...told,
      value: "graphic sorting in phi",
      published: expected.sorting_phi,
      ours: phi("phiGraphicSorting"),
      disagreement: { recomputed: recomputed.sorting_phi_folk_ward_6_6, tolerance: 1e-10, why },
    },
    { ...told, value: "graphic skewness", published: expected.skewness, ours: phi("phiGraphicSkewness") },
    { ...told, value: "graphic kurtosis", published: expected.kurtosis, ours: phi("phiGraphicKurtosis") },
  ];
}

const GRAPHIC = [
  ["phiGraphicMean", "graphic mean in phi"],
  ["phiGraphicSorting", "graphic sorting in phi"],
  ["phiGraphicSkewness", "graphic skewness"],
  ["phiGraphicKurtosis", "graphic kurtosis"],
] as const;
const MOMENT = [
  ["phiMomentMean", "moment mean in phi"],
  ["phiMomentSorting", "moment sorting in phi"],
  ["phiMomentSkewness", "moment skewness"],
  ["phiMomentKurtosis", "moment kurtosis"],
] as const;
type Named = readonly (readonly [ValueId, string])[];
const withFigures = (named: Named, figures: readonly number[]) =>
  named.map(([id, value], i) => [id, value, figures[i] ?? Number.NaN] as const);

function halfPhiChecks(): PublishedCheck[] {
  const { inputs, recomputed: made, source } = halfPhi;
  const lowerBoundsUm = inputs.midpoint_phi.map((phi) => umOf(phi + 0.25));
  const grading = stackOf([1000, ...lowerBoundsUm], [0, ...inputs.weight_pct]);
  const { Mz_phi, sigma_I_phi, Sk_I, K_G } = made.graphic;
  const moments = [made.moment_mean_phi, made.moment_sd_phi, made.moment_skewness, made.moment_kurtosis];
  return recomputedValues({ source, status: "generated" }, grading, [
    ...withFigures(MOMENT, moments),
    ...withFigures(GRAPHIC, [Mz_phi, sigma_I_phi, Sk_I, K_G]),
  ]);
}

function twentyChecks(): PublishedCheck[] {
  const { inputs, recomputed: made, source } = twenty;
  const apertures = [inputs.top_bound_phi_assumed, ...inputs.aperture_phi].map(umOf);
  const cumulative = [0, ...inputs.cumulative_retained_pct];
  const grading = stackOf(
    apertures,
    cumulative.map((pct, i) => pct - (cumulative[i - 1] ?? 0)),
  );
  const moments = [made.moment_mean_phi, made.moment_sd_phi, made.moment_skewness, made.moment_kurtosis];
  return recomputedValues({ source, status: "generated" }, grading, [
    ...withFigures(GRAPHIC, [made.Mz_phi, made.sigma_I_phi, made.Sk_I, made.K_G]),
    ...withFigures(MOMENT, moments),
  ]);
}

export const checks = [...cemChecks(), ...halfPhiChecks(), ...twentyChecks()];
