import type { Determination } from "../../record/determination.ts";
import type { ValueId } from "../../record/valueIds.ts";
import type { Grading, GradingChoices } from "../grading.ts";
import type { CharacteristicValue } from "./characteristicValue.ts";
import { curvatureCoefficient } from "./curvatureCoefficient.ts";
import { effectiveSizeUm } from "./effectiveSizeUm.ts";
import { finenessModulus } from "./finenessModulus.ts";
import { geometricMeanDiameterUm } from "./geometricMeanDiameterUm.ts";
import { geometricStandardDeviation } from "./geometricStandardDeviation.ts";
import { geometricStandardDeviationUm } from "./geometricStandardDeviationUm.ts";
import { grainFinenessNumber } from "./grainFinenessNumber.ts";
import { massMeanDiameterUm } from "./massMeanDiameterUm.ts";
import { particlesPerG } from "./particlesPerG.ts";
import { phiGraphicKurtosis } from "./phiGraphicKurtosis.ts";
import { phiGraphicMean } from "./phiGraphicMean.ts";
import { phiGraphicSkewness } from "./phiGraphicSkewness.ts";
import { phiGraphicSorting } from "./phiGraphicSorting.ts";
import { phiMomentKurtosis } from "./phiMomentKurtosis.ts";
import { phiMomentMean } from "./phiMomentMean.ts";
import { phiMomentSkewness } from "./phiMomentSkewness.ts";
import { phiMomentSorting } from "./phiMomentSorting.ts";
import { relativeSpan } from "./relativeSpan.ts";
import { sauterMeanDiameterUm } from "./sauterMeanDiameterUm.ts";
import { sizeGuideNumber } from "./sizeGuideNumber.ts";
import { specificSurfaceM2PerKg } from "./specificSurfaceM2PerKg.ts";
import { surfaceAreaCm2PerG } from "./surfaceAreaCm2PerG.ts";
import { uniformityCoefficient } from "./uniformityCoefficient.ts";
import { uniformityIndex } from "./uniformityIndex.ts";

export type { CharacteristicValue } from "./characteristicValue.ts";

/** Every characteristic value there is, in the order in which they are listed; every surface works from this table. */
export const CHARACTERISTIC_VALUES: readonly CharacteristicValue[] = [
  effectiveSizeUm,
  uniformityCoefficient,
  curvatureCoefficient,
  relativeSpan,
  finenessModulus,
  grainFinenessNumber,
  sizeGuideNumber,
  uniformityIndex,
  geometricMeanDiameterUm,
  geometricStandardDeviation,
  geometricStandardDeviationUm,
  surfaceAreaCm2PerG,
  particlesPerG,
  phiGraphicMean,
  phiGraphicSorting,
  phiGraphicSkewness,
  phiGraphicKurtosis,
  phiMomentMean,
  phiMomentSorting,
  phiMomentSkewness,
  phiMomentKurtosis,
  massMeanDiameterUm,
  sauterMeanDiameterUm,
  specificSurfaceM2PerKg,
];

/** All values of one grading by their ids, each a number with what it rests on, or the reason why there is none. */
export const characteristicValues = (grading: Grading, choices: GradingChoices): Record<ValueId, Determination> =>
  Object.fromEntries(CHARACTERISTIC_VALUES.map(({ id, determine }) => [id, determine(grading, choices)])) as Record<
    ValueId,
    Determination
  >;
