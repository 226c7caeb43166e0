import { z } from "zod";
import { reason } from "./amendment.ts";
import { day, initials, moment } from "./fields.ts";
import type { Kind } from "./migrate.ts";
import { type Product, ProductSchema } from "./product.ts";

/** What a draft becomes a revision with: who lets it go and when, from which day on it holds, and why there is one. */
export const ReleaseSchema = z.strictObject({ by: initials, at: moment, effective: day, reason });

const content = ProductSchema.omit({ schema: true, effective: true, approvedBy: true, author: true, reason: true });

/**
 * The next revision of a product while somebody writes it. It is of another kind than a product, so that no test can be
 * set out with it, and it holds nothing that only publishing gives: no approval, no day, no reason.
 */
export const ProductDraftSchema = z.strictObject({
  schema: z.literal("sievewright.productDraft/1"),
  ...content.shape,
  /** Who changed it last, and since when there is a draft. */
  author: initials,
  since: moment,
  /** The revision that it began from; null for a product that is new. */
  basedOn: z.int().positive().nullable(),
  /** A publication that was begun: if the log knows of it, the draft is a revision already. */
  publishing: ReleaseSchema.optional(),
});

/** How a draft is stored: `library/product-drafts/CODE.json`. */
export const productDraftKind: Kind<ProductDraft> = { name: "productDraft", schema: ProductDraftSchema, lifts: [] };

export type Release = z.infer<typeof ReleaseSchema>;
export type ProductDraft = z.infer<typeof ProductDraftSchema>;
/** What a product and a draft of one have in common: all that can be compared and drawn. */
export type ProductContent = Omit<Product, "schema">;

/** A draft of the revision after the newest there is. */
export function draftFrom(newest: Product, by: string, at: string): ProductDraft {
  const { schema: _s, effective: _e, approvedBy: _a, author: _w, reason: _r, ...kept } = newest;
  const revision = newest.revision + 1;
  return { ...kept, schema: "sievewright.productDraft/1", revision, author: by, since: at, basedOn: newest.revision };
}

/** The revision that a draft becomes; the one way from a draft to a product. */
export function publishedFrom(draft: ProductDraft, { by, effective, reason }: Release): Product {
  const { schema: _s, since: _i, basedOn: _b, publishing: _p, code, name, revision, author, ...rest } = draft;
  const control = { effective, approvedBy: by, author, reason };
  return { schema: "sievewright.product/1", code, name, revision, ...control, ...rest };
}

/** Whether nobody but its author has let a revision go; said wherever it is shown, never silently accepted. */
export const sameHands = (by: { readonly author?: string | undefined; readonly approvedBy?: string | undefined }) =>
  by.author !== undefined && by.author.toLowerCase() === by.approvedBy?.toLowerCase();

export const SAME_HANDS = "written and approved by the same person";
