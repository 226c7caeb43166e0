import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import type { Fit } from "../../record/product.ts";
import type { Grading, GradingChoices } from "../grading.ts";
import { sizeFault } from "../standsAt.ts";
import type { FitReport, ModelFit, ModelFits, SizeRange } from "./fit.ts";
import { leastSquares } from "./leastSquares.ts";
import type { Estimate, GridLine, NamedParameters, SizeModel } from "./model.ts";
import { type FitPoint, pointsFor, type SievePoint, sievePoints } from "./points.ts";
import { powerLawLeastSquares } from "./powerLawLeastSquares.ts";
import { qualityOf } from "./quality.ts";
import { estimateOf } from "./standardErrors.ts";
import { straightLine } from "./straightLine.ts";
import { MODELS } from "./table.ts";

/** A nanometre and a hundred metres: a size parameter outside says that the curve is too flat, not what grain it is. */
const SMALLEST_UM = 1e-3;
const LARGEST_UM = 1e8;

const unsettled = refused(
  "these sieves do not pin down both parameters: the curve is too steep or too flat between them",
);

function lineBy(rule: Fit, model: SizeModel, points: readonly FitPoint[]): GridLine | null {
  if (rule === "line") return straightLine(model, points);
  return model.topV === null ? leastSquares(model, points) : powerLawLeastSquares(points);
}

function allFinite(named: NamedParameters): boolean {
  const { model, standardErrors, ...parameters } = named;
  return [...Object.values(parameters), ...Object.values(standardErrors)].every(Number.isFinite);
}

function nameThem(model: SizeModel, found: Estimate): Outcome<NamedParameters> {
  const named = model.named(found);
  const aSize = found.sizeUm >= SMALLEST_UM && found.sizeUm <= LARGEST_UM;
  if (aSize && allFinite(named)) return accepted(named);
  return refused("the curve is too flat over these sieves: the fit ends at a size that no grain has");
}

const rangeOf = (points: readonly SievePoint[]): SizeRange => ({
  fromUm: points[0]?.apertureUm ?? 0,
  toUm: points.at(-1)?.apertureUm ?? 0,
});

function fitModel(rule: Fit, model: SizeModel, all: readonly SievePoint[]): Outcome<FitReport & NamedParameters> {
  const points = pointsFor(rule, all);
  if (!points.ok) return points;
  const gridLine = lineBy(rule, model, points.value);
  const found = gridLine && estimateOf(rule, model, points.value, gridLine);
  if (!found) return unsettled;
  const named = nameThem(model, found);
  if (!named.ok) return named;
  return accepted({
    determinable: true,
    ...named.value,
    rule,
    ...qualityOf(rule, model, points.value, gridLine),
    pointsUsed: points.value.length,
    used: rangeOf(points.value),
    sieves: rangeOf(all),
    gridLine,
  });
}

const orReason = (fit: Outcome<FitReport & NamedParameters>): ModelFit =>
  fit.ok ? fit.value : { determinable: false, reason: fit.reason };

/**
 * All models fitted to one grading by the rule that the product chose (CP-11):
 * `least-squares` - non-linear least squares on % passing over the sieves with 0 < P < 100, started from the line (where
 * nothing comes within some 10 % points, as for a step between two products, it may keep the second-best curve);
 * `line` - straight line on each model's own grid over the sieves with 5 <= P <= 95.
 * Sizes in um, % by mass; parameters with standard errors, r2 on the model's grid, rms in % points, points used.
 * @returns for each model its fit, or the reason why there is none: fewer than three such sieves, a flat curve, or
 *   points that do not pin the parameters down. Never NaN or Infinity.
 * @source the models' own files; choice of rule: own (CP-11)
 */
export function fitModels(grading: Grading, choices: Pick<GradingChoices, "fit">): ModelFits {
  const points = sievePoints(grading);
  const fault = sizeFault(grading);
  const fitted = (model: SizeModel) => orReason(fault === null ? fitModel(choices.fit, model, points) : refused(fault));
  return {
    rosinRammler: fitted(MODELS.rosinRammler),
    gatesGaudinSchuhmann: fitted(MODELS.gatesGaudinSchuhmann),
    logNormal: fitted(MODELS.logNormal),
  };
}
