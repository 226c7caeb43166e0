import type { Fit } from "../../record/product.ts";
import type { GridLine, ModelId, NamedParameters } from "./model.ts";

export interface SizeRange {
  readonly fromUm: number;
  readonly toUm: number;
}

/** What a fit says besides its parameters; told wherever they are shown. */
export interface FitReport {
  readonly determinable: true;
  readonly rule: Fit;
  /** 1 - unexplained/total on the model's own straight-line grid, over the points used. */
  readonly r2: number;
  /** Root mean square of observed - predicted passing, in % points, over the points used. */
  readonly rmsPct: number;
  readonly pointsUsed: number;
  /** Finest and coarsest aperture that the fit used. */
  readonly used: SizeRange;
  /** Finest and coarsest aperture of the stack: outside it the curve is no measurement. */
  readonly sieves: SizeRange;
  /** The fit as a straight line on the model's grid. */
  readonly gridLine: GridLine;
}

export type FittedModel = FitReport & NamedParameters;
export type ModelFit = FittedModel | { readonly determinable: false; readonly reason: string };
export type ModelFits = Readonly<Record<ModelId, ModelFit>>;
