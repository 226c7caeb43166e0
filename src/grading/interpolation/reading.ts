import type { Curve } from "../curve.ts";

/** A rule for reading the curve between the sieves `k` (the finer) and `k + 1`; each direction undoes the other. */
export interface Reading {
  readonly passingPct: (curve: Curve, k: number, apertureUm: number) => number;
  /** Only asked where passing % rises from `k` to `k + 1` and reaches the wanted one. */
  readonly sizeUm: (curve: Curve, k: number, passingPct: number) => number;
  /** What to tell about this step besides the name of the rule. */
  readonly told?: (curve: Curve, k: number) => string | null;
}

/** Where `at` lies on the way from `from` to `to`, 0 to 1; 1 on a way of no length. */
export const shareOfWay = (at: number, from: number, to: number): number =>
  to === from ? 1 : Math.min(1, Math.max(0, (at - from) / (to - from)));

/** The point at that share of the way; the ends exactly. */
export const onTheWay = (share: number, from: number, to: number): number =>
  share === 1 ? to : from + share * (to - from);
