import { type Determination, determined, undetermined } from "../../record/determination.ts";
import type { Frame } from "../../record/procedure.ts";
import { isAbove } from "../compare.ts";
import type { LoadRule } from "../rules/ruleSet.ts";
import { fairLoadG } from "./fairLoad.ts";

/** What one sieve holds against what it may hold. */
export interface SieveLoad {
  readonly apertureUm: number;
  readonly netG: number;
  readonly limit: Determination;
  /** Held over allowed, as a ratio. */
  readonly ratio: Determination;
  readonly overloaded: boolean;
}

/**
 * The load of every sieve, coarsest first as given; the pan (aperture 0) carries no sieving load and is left out.
 *
 * @returns one row a sieve; `overloaded` only where the limit is determinable and exceeded
 * @source the rule's own
 */
export function loadsOf(
  rows: readonly { readonly apertureUm: number; readonly netG: number }[],
  rule: LoadRule,
  frame: Frame | undefined,
): SieveLoad[] {
  return rows
    .filter((row) => row.apertureUm > 0)
    .map(({ apertureUm, netG }) => {
      const limit = fairLoadG(rule, apertureUm, frame);
      const ratio = limit.determinable ? determined(netG / limit.value, "1") : undetermined(limit.reason);
      return { apertureUm, netG, limit, ratio, overloaded: limit.determinable && isAbove(netG, limit.value) };
    });
}

const ratioOf = (load: SieveLoad): number => (load.ratio.determinable ? load.ratio.value : -1);

/** The sieve nearest to, or furthest beyond, its limit; undefined where no limit is determinable. */
export function heaviest(loads: readonly SieveLoad[]): SieveLoad | undefined {
  return loads.filter((load) => load.ratio.determinable).toSorted((a, b) => ratioOf(b) - ratioOf(a))[0];
}
