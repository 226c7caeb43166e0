import type { Product } from "../record/product.ts";
import { type Limit, limitsOf } from "./limit.ts";

/** What an envelope allows the passing curve at one aperture, in %; null where that side is open. */
export interface PassingBound {
  readonly apertureUm: number;
  readonly minPct: number | null;
  readonly maxPct: number | null;
}

const mirrored = (pct: number | null) => (pct === null ? null : 100 - pct);

function boundOf({ on, min, max }: Limit): PassingBound[] {
  if (on.kind === "passingPct") return [{ apertureUm: on.apertureUm, minPct: min, maxPct: max }];
  return on.kind === "coarserPct" ? [{ apertureUm: on.apertureUm, minPct: mirrored(max), maxPct: mirrored(min) }] : [];
}

/** The bounds that an envelope sets on the curve, coarsest first; limits on single fractions are not bounds of it. */
export const envelopeOf = (product: Pick<Product, "envelope" | "values">): PassingBound[] =>
  limitsOf(product).flatMap(boundOf);
