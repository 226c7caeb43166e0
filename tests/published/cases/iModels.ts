import { fitModels } from "../../../src/grading/models/fitModels.ts";
import type { ModelId } from "../../../src/grading/models/model.ts";
import { type FitPoint, sievePoints } from "../../../src/grading/models/points.ts";
import { straightLine } from "../../../src/grading/models/straightLine.ts";
import { MODELS } from "../../../src/grading/models/table.ts";
import type { Fit } from "../../../src/record/product.ts";
import { determinedFit, gradingOf, parametersOf } from "../../grading/models/gradings.ts";
import quartz from "../examples/i-fits-crushed-quartz.json" with { type: "json" };
import sheet from "../examples/i-rr-two-points.json" with { type: "json" };
import { mmToUm } from "../fromExample.ts";
import { halfDigit, type PublishedCheck } from "../record.ts";

const check = (value: string, source: string, published: number, ours: number, digits = 10): PublishedCheck => ({
  value,
  source,
  status: "generated",
  published,
  ours,
  tolerance: halfDigit(published, digits),
});

/** Size in um and second parameter of the straight line through points that the fit rules would not all take. */
function lineThrough(id: ModelId, points: readonly FitPoint[]): readonly [number, number] {
  const line = straightLine(MODELS[id], points);
  if (!line) throw new Error(`no rising line through ${points.length} points`);
  return [Math.exp(line.lnSizeUm), id === "logNormal" ? Math.exp(1 / line.slope) : line.slope];
}

const quartzGrading = gradingOf(
  mmToUm(quartz.inputs.aperture_mm),
  quartz.inputs.passing_fraction.map((share) => 100 * share),
);
const inside = sievePoints(quartzGrading).filter(({ passingPct }) => passingPct < 100);

const fitted = (id: ModelId, rule: Fit): readonly [number, number] =>
  parametersOf(determinedFit(fitModels(quartzGrading, { fit: rule })[id]));

function quartzChecks(): PublishedCheck[] {
  const { recomputed: made, source } = quartz;
  const [allRosin, allNormal] = [lineThrough("rosinRammler", inside), lineThrough("logNormal", inside)];
  const fine = inside.filter(({ apertureUm }) => apertureUm < 1000);
  const powerLaw = lineThrough("gatesGaudinSchuhmann", fine);
  const [line, squares] = [fitted("rosinRammler", "line"), fitted("rosinRammler", "least-squares")];
  const probit = fitted("logNormal", "line");
  const rows: readonly (readonly [string, number, number, number?])[] = [
    ["Rosin-Rammler n, line through all points", made.rosin_rammler_ols_all.n, allRosin[1]],
    ["Rosin-Rammler size in mm, line through all points", made.rosin_rammler_ols_all.x63_mm, allRosin[0] / 1000, 8],
    ["Rosin-Rammler n, line over 5 to 95 %", made.rosin_rammler_ols_5_to_95.n, line[1]],
    ["Rosin-Rammler size in mm, line over 5 to 95 %", made.rosin_rammler_ols_5_to_95.x63_mm, line[0] / 1000],
    ["Rosin-Rammler n, least squares on passing", made.rosin_rammler_least_squares_on_passing.n, squares[1], 6],
    [
      "Rosin-Rammler size in mm, least squares on passing",
      made.rosin_rammler_least_squares_on_passing.x63_mm,
      squares[0] / 1000,
      6,
    ],
    ["Gates-Gaudin-Schuhmann m, line below 1 mm", made.ggs_ols_below_1mm.m, powerLaw[1]],
    ["Gates-Gaudin-Schuhmann top size in mm, line below 1 mm", made.ggs_ols_below_1mm.k_mm, powerLaw[0] / 1000],
    ["log-normal median in mm, line through all points", made.log_normal_probit_ols_all.median_mm, allNormal[0] / 1000],
    [
      "log-normal geometric standard deviation, line through all points",
      made.log_normal_probit_ols_all.geometric_sd,
      allNormal[1],
    ],
    ["log-normal median in mm, line over 5 to 95 %", made.log_normal_probit_ols_5_to_95.median_mm, probit[0] / 1000],
    [
      "log-normal geometric standard deviation, line over 5 to 95 %",
      made.log_normal_probit_ols_5_to_95.geometric_sd,
      probit[1],
    ],
  ];
  return rows.map(([value, published, ours, digits]) => check(value, source, published, ours, digits));
}

function sheetChecks(): PublishedCheck[] {
  const { inputs, recomputed, source } = sheet;
  const points = sievePoints(gradingOf(inputs.aperture_um, inputs.passing_pct));
  const [sizeUm, spread] = lineThrough("rosinRammler", points);
  return [
    check("Rosin-Rammler n through two points", source, recomputed.n, spread),
    check("Rosin-Rammler size in um through two points", source, recomputed.x63_um, sizeUm),
  ];
}

export const checks = [...sheetChecks(), ...quartzChecks()];
