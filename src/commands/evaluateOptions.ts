import type { Basis, Interpolation } from "../record/product.ts";

export interface EvaluateOptions {
  readonly product?: string;
  readonly basis?: Basis;
  readonly interpolate?: Interpolation;
  readonly monteCarlo?: boolean;
  readonly seed?: number;
  readonly json?: boolean;
  readonly csv?: boolean;
  readonly data?: string;
}
