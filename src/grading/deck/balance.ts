import { apertureText } from "../../series/apertureText.ts";
import type { DeckClass } from "./classes.ts";

/** How far the measured feed is from the one that the two products add up to, in % points. */
export interface Balance {
  /** Root mean square over the classes. */
  readonly rmsPct: number;
  readonly worstPct: number;
  /** Where that is: an aperture, or the pan. */
  readonly worstOn: string;
  /** Standard error of the share of oversize, 0 to 1; null if two classes leave no difference to judge it by. */
  readonly shareError: number | null;
}

/** Shares that add to 100 % and one fitted share: two classes always balance. */
const FREE_BEFORE = 2;

/**
 * Misfit of a mass split: r_i = f_i - s d_i - (1-s) b_i for each class. The standard error of s is
 * `sqrt(sum r^2 / (n - 2) / sum (d - b)^2)`, n classes whose shares add to 100 %; it speaks of the misfit alone, not of how
 * well the samples stand for their streams.
 * @source common practice of least squares, no source
 */
export function balanceOf(classes: readonly DeckClass[], oversizeShare: number): Balance {
  const rows = classes.map(({ apertureUm, feedPct, oversizePct, undersizePct }) => ({
    apertureUm,
    offPct: feedPct - oversizeShare * oversizePct - (1 - oversizeShare) * undersizePct,
    apart: (oversizePct - undersizePct) ** 2,
  }));
  const squares = rows.reduce((sum, { offPct }) => sum + offPct ** 2, 0);
  const apart = rows.reduce((sum, row) => sum + row.apart, 0);
  const worst = rows.toSorted((a, b) => Math.abs(b.offPct) - Math.abs(a.offPct))[0];
  const free = rows.length - FREE_BEFORE;
  return {
    rmsPct: Math.sqrt(squares / rows.length),
    worstPct: worst?.offPct ?? 0,
    worstOn: apertureText(worst?.apertureUm ?? 0),
    shareError: free > 0 ? Math.sqrt(squares / free / apart) : null,
  };
}
