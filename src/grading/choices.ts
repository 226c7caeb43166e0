import type { Basis, Interpolation, Product } from "../record/product.ts";
import type { GradingChoices } from "./grading.ts";

/** Choices made for one run of the numbers, which beat those of the product. */
export interface ChoiceOverrides {
  readonly basis?: Basis;
  readonly interpolation?: Interpolation;
}

/** The mass that is 100 %: the caller's word, else the product's, else the recovered total (CP-1). */
export const basisOf = (product: Product | null, overrides: ChoiceOverrides): Basis =>
  overrides.basis ?? product?.method?.basis ?? "recovered";

/**
 * Every choice point of the numbers decided: the caller's word, else the product's, else the default of the house
 * (log-linear interpolation, least-squares fits, fineness modulus by the astm series, nothing interpolated).
 */
export function choicesOf(product: Product | null, overrides: ChoiceOverrides): GradingChoices {
  const method = product?.method ?? {};
  const modulus = product?.values?.find((wish) => wish.id === "finenessModulus");
  return {
    interpolation: overrides.interpolation ?? method.interpolation ?? "log-linear",
    ...(method.topUm === undefined ? {} : { topUm: method.topUm }),
    ...(method.pan === undefined ? {} : { pan: method.pan }),
    ...(method.classMean === undefined ? {} : { classMean: method.classMean }),
    fit: method.fit ?? "least-squares",
    material: product?.material ?? {},
    modulusSeries: modulus?.series ?? "astm",
    modulusInterpolateMissing: modulus?.interpolateMissing ?? false,
  };
}
