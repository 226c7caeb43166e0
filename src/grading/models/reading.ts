import { type Determination, determined, undetermined } from "../../record/determination.ts";
import type { FittedModel, ModelFit } from "./fit.ts";
import { MODELS } from "./table.ts";

/** Said beside every number that was read from a model instead of from the sieves (CP-5). */
function origin(fit: FittedModel, sizeUm: number): string {
  const beyond = sizeUm < fit.sieves.fromUm || sizeUm > fit.sieves.toUm;
  return `${MODELS[fit.model].label}, ${beyond ? "beyond the sieves" : "not read from the sieves"}`;
}

/**
 * Passing % at a size (um) by a fitted model, with the model named among the assumptions. For showing and for sizes
 * beyond the sieves; never for a verdict.
 * @returns the reason if there is no fit or the size is not above 0
 */
export function modelPassingPct(fit: ModelFit, sizeUm: number): Determination {
  if (!fit.determinable) return undetermined(fit.reason);
  if (!(sizeUm > 0 && Number.isFinite(sizeUm))) return undetermined("a size must be above 0 um");
  const v = fit.gridLine.slope * (Math.log(sizeUm) - fit.gridLine.lnSizeUm);
  return determined(MODELS[fit.model].passingPctAt(v), "%", [origin(fit, sizeUm)]);
}

/**
 * Size (um) that a given % passes by a fitted model, with the model named among the assumptions. For showing and for
 * percentiles beyond the sieves; never for a verdict.
 * @returns the reason if there is no fit or the model reaches that % at no size (0 %; 100 % unless it has a top size)
 */
export function modelSizeUm(fit: ModelFit, passingPct: number): Determination {
  if (!fit.determinable) return undetermined(fit.reason);
  const model = MODELS[fit.model];
  const v = model.gridY(passingPct);
  const sizeUm = v === null ? 0 : Math.exp(fit.gridLine.lnSizeUm + v / fit.gridLine.slope);
  return sizeUm > 0 && Number.isFinite(sizeUm)
    ? determined(sizeUm, "um", [origin(fit, sizeUm)])
    : undetermined(`${model.label} reaches ${passingPct} % at no size`);
}
