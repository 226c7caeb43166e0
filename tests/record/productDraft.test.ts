import { describe, expect, expectTypeOf, test } from "vitest";
import { type Product, ProductSchema } from "../../src/record/product.ts";
import {
  draftFrom,
  type ProductDraft,
  ProductDraftSchema,
  publishedFrom,
  sameHands,
} from "../../src/record/productDraft.ts";
import { FULL_PRODUCT } from "../envelope/revisions/fullProduct.ts";

const AT = "2026-11-24T08:00:00+01:00";
const release = { by: "SB", at: AT, effective: "2026-12-01", reason: "customer asks for less fines" };

describe("a draft of a product", () => {
  const draft = draftFrom(FULL_PRODUCT, "KO", AT);

  test("is the next revision, by whom and since when, and holds nothing that only publishing gives", () => {
    expect(draft).toMatchObject({ revision: 4, author: "KO", since: AT, basedOn: 3 });
    for (const given of ["effective", "approvedBy", "reason"]) expect(draft).not.toHaveProperty(given);
    expect(ProductDraftSchema.safeParse(draft).error).toBeUndefined();
  });

  test("is no product, for the program that reads it nor for the compiler", () => {
    expect(ProductSchema.safeParse(draft).success).toBe(false);
    expect(ProductDraftSchema.safeParse(FULL_PRODUCT).success).toBe(false);
    expectTypeOf<ProductDraft>().not.toExtend<Product>();
  });

  test("becomes a product by being published, with all that it held", () => {
    const product = publishedFrom({ ...draft, name: "finer", publishing: release }, release);
    expect(ProductSchema.parse(product)).toEqual(product);
    const { approvedBy, author, effective, reason } = product;
    expect({ approvedBy, author, effective, reason }).toEqual({
      approvedBy: "SB",
      author: "KO",
      effective: "2026-12-01",
      reason: "customer asks for less fines",
    });
    expect({ ...product, approvedBy: "SB", author: "KO", revision: 3, name: FULL_PRODUCT.name }).toEqual({
      ...FULL_PRODUCT,
      effective: "2026-12-01",
      reason: "customer asks for less fines",
    });
  });
});

test("the same hands are the same initials in any case; nobody named is nobody", () => {
  expect(sameHands({ author: "KO", approvedBy: "ko" })).toBe(true);
  expect(sameHands({ author: "KO", approvedBy: "SB" })).toBe(false);
  expect(sameHands({ approvedBy: "SB" })).toBe(false);
  expect(sameHands({})).toBe(false);
});

test("a product file of before, without author and reason, is read as it was", () => {
  const { author: _a, reason: _r, ...old } = FULL_PRODUCT;
  expect(ProductSchema.parse(old)).toEqual(old);
});
