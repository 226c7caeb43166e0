import type { Graded } from "../graded.ts";

/** The most that one sieve may hold, in g, by the rule of load that the product names. */
export interface SieveLoadLimit {
  readonly apertureUm: number;
  readonly maxG: number;
}

/** The largest portion that overloads no sieve, and the sieve that it fills first. */
export interface LargestPortion {
  readonly portionG: number;
  readonly fullestUm: number;
}

/**
 * How much of a material of this curve may be sieved at once: `min of maxG_i / share retained_i`.
 *
 * @returns null where no sieve that holds anything has a limit
 */
export function largestPortion({ grading }: Graded, loads: readonly SieveLoadLimit[]): LargestPortion | null {
  const allowed = grading.rows.flatMap(({ apertureUm, retainedPct }) => {
    const load = loads.find((limit) => limit.apertureUm === apertureUm);
    return load && retainedPct > 0 ? [{ portionG: (100 * load.maxG) / retainedPct, fullestUm: apertureUm }] : [];
  });
  return allowed.toSorted((a, b) => a.portionG - b.portionG)[0] ?? null;
}

/** In how many equal portions a charge is sieved so that none is above the largest; 1 without a largest. */
export const portionsFor = (chargeG: number, largest: LargestPortion | null): number =>
  largest === null ? 1 : Math.max(1, Math.ceil(chargeG / largest.portionG - 1e-9));
