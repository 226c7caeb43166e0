import { type ChargeBound, chargeRange } from "../procedure/charge/chargeRange.ts";
import { splitPlan } from "../procedure/charge/riffle.ts";
import { resolveRules } from "../procedure/rules/resolve.ts";
import type { Draft } from "../record/draft.ts";
import type { Usual } from "./usual.ts";

const figure = (grams: number) => `${Number(grams.toPrecision(6))} g`;
const boundG = (side: ChargeBound | null): number | null => (side?.bound.determinable ? side.bound.value : null);

/** How the riffle brings what was weighed into the range, in words; empty where it can't. */
function split(grams: number, leastG: number, mostG: number): string {
  const plan = splitPlan(grams, leastG, mostG);
  if (!plan.ok || plan.value.splits === 0) return "";
  const { splits, keptParts, portionG } = plan.value;
  const kept = keptParts === 1 ? "keep one half each time" : `keep ${keptParts} of the ${2 ** splits} parts`;
  return `: split it ${splits === 1 ? "once" : `${splits} times`} (${kept}) for about ${Number(portionG.toPrecision(3))} g`;
}

const mids = (usual: Usual): ReadonlyMap<number, number> =>
  new Map([...usual].map(([um, sieve]) => [um, (100 * (sieve.lowShare + sieve.highShare)) / 2]));

/**
 * Why a charge should not go on the stack as it is, with what to do: too little to stand for the material, or more than
 * product or sieves allow. Null where the product's rules say nothing against it.
 */
export function chargeDoubt({ product }: Draft, grams: number, usual: Usual): string | null {
  const rules = resolveRules(product.method, product.method?.procedure);
  const { least, most, portions } = chargeRange(rules, product.stackUm, mids(usual));
  const [leastG, mostG] = [boundG(least), boundG(most)];
  if (leastG !== null && grams < leastG)
    return `${figure(grams)} is too little: at least ${figure(leastG)} (${least?.source})`;
  if (mostG === null || grams <= mostG) return null;
  const tooMuch = `${figure(grams)} is more than the ${figure(mostG)} allowed (${most?.source})`;
  if (portions > 1) return `${tooMuch}: sieve it in portions, a on the result adds one`;
  return tooMuch + split(grams, leastG ?? 0.5 * mostG, mostG);
}
