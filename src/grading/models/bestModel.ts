import type { FittedModel, ModelFits } from "./fit.ts";
import { MODEL_IDS, type ModelId } from "./model.ts";
import { MODELS } from "./table.ts";

export type BestModel =
  | { readonly decided: true; readonly model: ModelId; readonly lead: number; readonly reason: string }
  | { readonly decided: false; readonly reason: string };

/** Small-sample AIC with K = 3 (two parameters and the scatter) exists only above N = K + 1. */
const FEWEST_TO_COMPARE = 5;
/** "Considerably less support" begins here (Burnham and Anderson). */
const LEAD_NEEDED = 4;
/** Misfits below what sieving and weighing resolve are all the same: nothing, rather than a reason to prefer. */
const RESOLVED_PCT = 0.01;

const aicc = (fit: FittedModel): number => 2 * fit.pointsUsed * Math.log(Math.max(fit.rmsPct, RESOLVED_PCT));

const undecided = (reason: string): BestModel => ({ decided: false, reason });

/**
 * Which model describes the grading best, if the data tell: the lead of the best over the second in small-sample AIC,
 * `AICc = N ln(sum r^2 / N) + 2K + 2K(K+1)/(N-K-1)`. All models have two parameters and the same N points, so the lead
 * is `2 N ln(rms second / rms best)`; rms in % points, taken as at least 0.01. It counts from 4 on, where Burnham and
 * Anderson see "considerably less support" for the second; their 2 is not enough here, as neighbouring cumulative %
 * share their errors. "Best" is not "good": `rmsPct` says how far off it is.
 * @returns undecided with a reason for fewer than two fits, fewer than five points, a smaller lead, or fits by `line`
 *   (each is best on its own grid, and the grids cannot be compared)
 * @source Burnham and Anderson, Model Selection and Multimodel Inference, 2nd ed. (2002) p. 70 (memory)
 */
export function bestModel(fits: ModelFits): BestModel {
  const fitted = MODEL_IDS.map((id) => fits[id]).filter((fit) => fit.determinable);
  const [best, second] = fitted.toSorted((a, b) => a.rmsPct - b.rmsPct);
  if (!best || !second) return undecided("fewer than two models could be fitted, so there is nothing to compare");
  if (best.rule === "line") return undecided("lines are fitted each on its own grid and cannot be compared");
  if (best.pointsUsed < FEWEST_TO_COMPARE) {
    return undecided(`${best.pointsUsed} sieves are too few to tell the models apart; ${FEWEST_TO_COMPARE} are needed`);
  }
  const lead = aicc(second) - aicc(best);
  const [first, other] = [MODELS[best.model].label, MODELS[second.model].label];
  return lead >= LEAD_NEEDED
    ? { decided: true, model: best.model, lead, reason: `${first} fits best, clearly closer than ${other}` }
    : undecided(`these sieves do not tell ${first} and ${other} apart`);
}
