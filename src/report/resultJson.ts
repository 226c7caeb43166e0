import type { DrawnOver } from "../assess/drawnOver.ts";
import type { Assessment } from "../assess.ts";
import type { GradedFraction } from "../grading/grading.ts";
import type { ModelFits } from "../grading/models/fit.ts";
import type { Evaluation } from "../record/evaluation.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { howSureJson } from "./sureJson.ts";

const SCHEMA = "sievewright.evaluation/1";

/** What `evaluate --json` prints: the whole assessment, unrounded, in the order of the contract, and a line end. */
export const resultJson = (assessment: Assessment): string => `${printedJson(evaluation(assessment))}\n`;

function evaluation({ fractions, models, verdict, judgedAgainst, notices, procedure, howSure, ...rest }: Assessment) {
  const { basis, interpolation, chargeG, washedG, recoveredG, lossG, lossPct, percentilesUm, values } = rest;
  const { apertures } = rest;
  const masses = { chargeG, recoveredG, lossG, lossPct };
  return {
    schema: SCHEMA,
    basis,
    interpolation,
    ...(apertures === undefined ? {} : { apertures: aperturesJson(apertures) }),
    ...masses,
    fractions: fractions.map(fractionJson),
    percentilesUm,
    values,
    models: modelsJson(models),
    verdict,
    notices,
    procedure,
    washedG,
    judgedAgainst,
    uncertainty: howSureJson(howSure),
  };
}

const aperturesJson = ({ choice, of }: DrawnOver): Evaluation["apertures"] => ({
  choice,
  of: of.map(({ apertureUm, serial, known, lacks, passing }) => ({
    apertureUm,
    meanUm: known?.meanUm ?? null,
    serial,
    restsOn: known?.restsOn ?? null,
    ...(known?.doubt === undefined ? {} : { doubt: known.doubt }),
    ...(lacks === null ? {} : { lacks }),
    passingAtNominalPct: passing.determinable ? passing.value : null,
  })),
});

function fractionJson({ apertureUm, ...rest }: GradedFraction): Evaluation["fractions"][number] {
  const { emptyG, fullG, netG, retainedPct, coarserPct, passingPct } = rest;
  const figures = { emptyG, fullG, netG, retainedPct, coarserPct, passingPct };
  return apertureUm === 0 ? { pan: true, apertureUm, ...figures } : { apertureUm, ...figures };
}

const modelsJson = ({ rosinRammler, gatesGaudinSchuhmann, logNormal }: ModelFits) => ({
  rosinRammler: fitJson(rosinRammler),
  gatesGaudinSchuhmann: fitJson(gatesGaudinSchuhmann),
  logNormal: fitJson(logNormal),
});

/** A fit without what only a drawing of it needs. */
function fitJson<F extends ModelFits[keyof ModelFits]>(fit: F) {
  if (!fit.determinable) return fit;
  const { model, gridLine, sieves, rule, r2, rmsPct, pointsUsed, used, ...parameters } = fit;
  return { ...parameters, rule, r2, rmsPct, pointsUsed, used };
}
