import { type Determination, determined, undetermined } from "../../record/determination.ts";

/** A sieve of the stack, what it may hold, and the share of the charge that it usually holds. */
export interface SieveCapacity {
  readonly apertureUm: number;
  readonly limitG: number;
  readonly usualPct?: number | undefined;
}

/**
 * The largest charge in g that the stack carries without overloading a sieve.
 *
 *     with usual shares:     smallest of  limit_i / (share_i / 100)  over the sieves that hold something
 *     without any of them:   smallest limit, fair whatever the grading
 *
 * @returns unit "g" with what it assumes; not determinable for an empty stack or where only some shares are known
 * @source the load rule's own; the shares are the product's usual results
 */
export function stackCapacityG(sieves: readonly SieveCapacity[]): Determination {
  const known = sieves.filter((sieve) => sieve.usualPct !== undefined).length;
  if (sieves.length === 0) return undetermined("no sieve has a limit of load");
  if (known === 0)
    return determined(Math.min(...sieves.map((s) => s.limitG)), "g", ["all of the charge may stay on one sieve"]);
  if (known < sieves.length) return undetermined("the usual share is not known for every sieve");
  const charges = sieves.map((s) =>
    (s.usualPct ?? 0) > 0 ? (100 * s.limitG) / (s.usualPct ?? 0) : Number.POSITIVE_INFINITY,
  );
  const smallestG = Math.min(...charges);
  return smallestG === Number.POSITIVE_INFINITY
    ? undetermined("the sieves usually hold nothing")
    : determined(smallestG, "g", ["the product grades as usual"]);
}
