import canonicalize from "canonicalize";
import type { Product } from "../record/product.ts";
import type { ProductShelf } from "./store.ts";

/** Products by code, all their revisions in order. */
export function productShelf(products: Iterable<Product>): ProductShelf {
  const byCode = new Map<string, Product[]>();
  for (const product of products) byCode.set(product.code, [...(byCode.get(product.code) ?? []), product]);
  for (const revisions of byCode.values()) revisions.sort((a, b) => a.revision - b.revision);
  return {
    codes: [...byCode.keys()].sort(),
    revisions: (code) => byCode.get(code) ?? [],
    inForce: (code, day) => byCode.get(code)?.findLast((revision) => hasCome(revision, day)) ?? null,
  };
}

const hasCome = ({ effective }: Product, day: string): boolean => effective === undefined || effective <= day;

export type Arrival =
  | { readonly is: "new" }
  | { readonly is: "already there" }
  | { readonly is: "refused"; readonly why: string };

/**
 * What a product revision is to those already loaded. A revision never changes once loaded and the numbers only rise, so
 * that a revision named in a record always means the same envelope; codes that differ only by letter case are one code.
 */
export function arrival(product: Product, shelf: ProductShelf): Arrival {
  const { code, revision } = product;
  const twin = shelf.codes.find((known) => known !== code && known.toLowerCase() === code.toLowerCase());
  if (twin !== undefined) return no(`product ${code} differs from ${twin} only by letter case. Use the code ${twin}`);
  const known = shelf.revisions(code);
  const same = known.find((other) => other.revision === revision);
  if (same !== undefined)
    return canonicalize(same) === canonicalize(product)
      ? { is: "already there" }
      : no(
          `product ${code} revision ${revision} is loaded already, with other content. Give the change a new revision`,
        );
  const newest = known.at(-1)?.revision ?? 0;
  return revision > newest
    ? { is: "new" }
    : no(`product ${code} is at revision ${newest} already; revision ${revision} is older. Raise its revision`);
}

const no = (why: string): Arrival => ({ is: "refused", why });
