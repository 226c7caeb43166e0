import { fairLoadG } from "../procedure/load/fairLoad.ts";
import { resolveRules } from "../procedure/rules/resolve.ts";
import type { Determination } from "../record/determination.ts";
import type { Draft } from "../record/draft.ts";

/**
 * What a sieve may hold at the end by the product's rule of load, in g; null where the product has no such rule, or for
 * the pan. Not determinable with the reason, e.g. without the size of the frame.
 */
export function fairLoadOn({ product }: Draft, apertureUm: number): Determination | null {
  const { rule, frame } = resolveRules(product.method, product.method?.procedure).load;
  return rule === null || apertureUm === 0 ? null : fairLoadG(rule, apertureUm, frame);
}
