/** Every characteristic value that can be asked for by name; the contract of the command line fixes these words. */
export const VALUE_IDS = [
  "uniformityCoefficient",
  "curvatureCoefficient",
  "effectiveSizeUm",
  "relativeSpan",
  "finenessModulus",
  "grainFinenessNumber",
  "sizeGuideNumber",
  "uniformityIndex",
  "geometricMeanDiameterUm",
  "geometricStandardDeviation",
  "geometricStandardDeviationUm",
  "surfaceAreaCm2PerG",
  "particlesPerG",
  "phiGraphicMean",
  "phiGraphicSorting",
  "phiGraphicSkewness",
  "phiGraphicKurtosis",
  "phiMomentMean",
  "phiMomentSorting",
  "phiMomentSkewness",
  "phiMomentKurtosis",
  "massMeanDiameterUm",
  "sauterMeanDiameterUm",
  "specificSurfaceM2PerKg",
] as const;

export type ValueId = (typeof VALUE_IDS)[number];
