import { meansOfTest } from "../assess/drawnOver.ts";
import { limitsOf } from "../envelope/limit.ts";
import type { Draft } from "../record/draft.ts";
import type { Product } from "../record/product.ts";
import { apertureText } from "../series/apertureText.ts";

const onAperture = (product: Product): readonly { readonly apertureUm: number; readonly isRetained: boolean }[] =>
  limitsOf(product).flatMap(({ on }) =>
    "apertureUm" in on ? [{ apertureUm: on.apertureUm, isRetained: on.kind === "retainedPct" }] : [],
  );

/** Apertures of the stack that lie beyond the curve over the mean apertures of these sieves, as far as these are known. */
function beyondUm(draft: Draft): ReadonlySet<number> {
  const means = meansOfTest(draft) ?? [];
  const coarsestUm = means[0]?.known?.meanUm ?? Number.POSITIVE_INFINITY;
  const finestUm = means.at(-1)?.known?.meanUm ?? 0;
  const stackUm = means.map(({ apertureUm }) => apertureUm);
  return new Set(stackUm.filter((apertureUm) => apertureUm > coarsestUm || apertureUm < finestUm));
}

/** The apertures that a limit is read at: what a sieve retains is read at the next coarser one as well. */
function readAtUm({ product }: Draft, { apertureUm, isRetained }: ReturnType<typeof onAperture>[number]): number[] {
  const coarserUm = product.stackUm.filter((um) => um > apertureUm);
  return isRetained && coarserUm.length > 0 ? [apertureUm, Math.min(...coarserUm)] : [apertureUm];
}

/**
 * Limits of the product that these sieves leave undeterminable, in words, while others can still be taken: the real
 * aperture of the outermost sieve lies inside its nominal one, and nothing is read beyond the curve. Null: none.
 *
 * @param only the sieve of this aperture was taken just now: said of it alone, where it is such a one
 */
export function beyondMeansWords(draft: Draft, only: number | null = null): string | null {
  const beyond = beyondUm(draft);
  if (only !== null && !beyond.has(only)) return null;
  const lost = onAperture(draft.product).filter((limit) => readAtUm(draft, limit).some((um) => beyond.has(um)));
  if (lost.length === 0) return null;
  const apertures = [...new Set(lost.map(({ apertureUm }) => apertureText(apertureUm)))].join(", ");
  return `with these sieves no limit at ${apertures} will be determined, unless all or nothing passes there: the mean aperture of an outermost sieve lies inside its nominal one`;
}
