import type { Basis, Interpolation } from "../record/product.ts";

export interface EvaluateOptions {
  readonly product?: string;
  readonly basis?: Basis;
  readonly interpolate?: Interpolation;
  readonly json?: boolean;
  readonly csv?: boolean;
  readonly data?: string;
}
