import canonicalize from "canonicalize";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { contentDiff, productDiff } from "../../../src/envelope/revisions/productDiff.ts";
import { type Product, ProductSchema } from "../../../src/record/product.ts";
import { draftFrom } from "../../../src/record/productDraft.ts";
import { FULL_PRODUCT } from "./fullProduct.ts";
import { leavesIn, SCHEMA_LEAVES, withLeaf } from "./schemaLeaves.ts";

const words = (before: Product, after: Product) => productDiff(before, after).map((one) => one.words);
const changed = (change: Partial<Product>) => words(FULL_PRODUCT, { ...FULL_PRODUCT, ...change });
const method = (change: Product["method"]) => changed({ method: { ...FULL_PRODUCT.method, ...change } });

/** Something else of the same sort, whatever stands there. */
const otherThan = (there: unknown): unknown =>
  typeof there === "number" ? there + 1 : typeof there === "boolean" ? !there : `${String(there)}x`;

const LEAVES = leavesIn(FULL_PRODUCT).filter(([path]) => path !== "schema");

describe("no field of a product is passed over", () => {
  test("the full product is one, and states every field that the schema has", () => {
    expect(ProductSchema.safeParse(FULL_PRODUCT).error).toBeUndefined();
    const stated = new Set(leavesIn(FULL_PRODUCT).map(([path]) => path));
    // A union's shorter form is no leaf of the longer one that is stated here.
    const SHORT_FORMS = [
      "method.procedure.frameMm",
      "method.procedure.balance.interval",
      "method.pan",
      "decision.guard.r",
      "decision.compare",
      "uncertainty.sampling.sdPctAt50",
    ];
    expect(SCHEMA_LEAVES.filter((leaf) => !stated.has(leaf))).toEqual(SHORT_FORMS);
    expect(SCHEMA_LEAVES.length).toBeGreaterThan(60);
  });

  test.each(LEAVES)("%s: another thing there is told", (_path, steps) => {
    const there = steps.reduce<unknown>((at, step) => (at as Record<string | number, unknown>)[step], FULL_PRODUCT);
    expect(productDiff(FULL_PRODUCT, withLeaf(FULL_PRODUCT, steps, otherThan(there)))).not.toEqual([]);
  });

  test.each(LEAVES)("%s: taken away is told", (_path, steps) => {
    const without = withLeaf(FULL_PRODUCT, steps, undefined);
    expect(productDiff(FULL_PRODUCT, without)).not.toEqual([]);
    expect(productDiff(without, FULL_PRODUCT)).not.toEqual([]);
  });

  test.each(LEAVES)("%s: the field that is named is where the change is", (path, steps) => {
    const there = steps.reduce<unknown>((at, step) => (at as Record<string | number, unknown>)[step], FULL_PRODUCT);
    const fields = productDiff(FULL_PRODUCT, withLeaf(FULL_PRODUCT, steps, otherThan(there))).map((one) => one.field);
    for (const field of fields)
      expect(path.replaceAll("[]", "")).toMatch(new RegExp(`^${field.replaceAll(".", "\\.")}`));
  });
});

describe("laws", () => {
  /** The full product with some of its leaves changed or gone, whether a file could hold that or not. */
  const some: fc.Arbitrary<Product> = fc
    .array(fc.tuple(fc.nat(LEAVES.length - 1), fc.boolean()), { maxLength: 6 })
    .map((edits) =>
      edits.reduce((product, [at, isGone]) => {
        const [, steps] = LEAVES[at] ?? ["", []];
        const there = leavesIn(product).find(([, others]) => others.join() === steps.join());
        if (!there) return product;
        const now = steps.reduce<unknown>((p, step) => (p as Record<string | number, unknown>)[step], product);
        return withLeaf(product, steps, isGone ? undefined : otherThan(now));
      }, FULL_PRODUCT),
    );

  test("nothing changed from a product to itself", () =>
    fc.assert(
      fc.property(some, (product) => {
        expect(productDiff(product, structuredClone(product))).toEqual([]);
      }),
    ));

  /** Objects that hold nothing say the same as none. */
  const bare = (json: unknown): unknown => {
    if (Array.isArray(json)) return json.map(bare);
    if (typeof json !== "object" || json === null) return json;
    const kept = Object.entries(json).map(([name, inner]) => [name, bare(inner)] as const);
    const held = kept.filter(([, inner]) => canonicalize(inner) !== "{}");
    return Object.fromEntries(held);
  };

  test("nothing is told exactly where the files are the same", () =>
    fc.assert(
      fc.property(some, some, (a, b) => {
        const same = canonicalize(bare(a)) === canonicalize(bare(b));
        expect(productDiff(a, b).length === 0).toBe(same);
      }),
      { numRuns: 300 },
    ));

  test("as much is told backwards as forwards", () =>
    fc.assert(
      fc.property(some, some, (a, b) => {
        expect(productDiff(a, b)).toHaveLength(productDiff(b, a).length);
      }),
    ));

  test("the order of sieves, limits and values is told where nothing else changed", () => {
    for (const list of ["stackUm", "envelope", "values"] as const) {
      const turned = { ...FULL_PRODUCT, [list]: FULL_PRODUCT[list]?.toReversed() };
      expect(productDiff(FULL_PRODUCT, turned)).toMatchObject([
        { field: list, words: expect.stringContaining("in another order") },
      ]);
    }
  });
});

describe("what changed, in words", () => {
  const at = (max: number) => ({ apertureUm: 500, passingPct: { max } });

  test.each<[Partial<Product>, Partial<Product>, string]>([
    [{ envelope: [at(12)] }, { envelope: [at(10)] }, "passing at 500 um: at most 12 % -> 10 %"],
    [{ envelope: [] }, { envelope: [at(10)] }, "passing at 500 um: limit added, at most 10 %"],
    [{ envelope: [at(10)] }, { envelope: [] }, "passing at 500 um: limit removed (at most 10 %)"],
    [
      { envelope: [at(10)] },
      { envelope: [{ apertureUm: 500, passingPct: { min: 2 } }] },
      "passing at 500 um: at least 2 % added; at most 10 % removed",
    ],
    [
      { envelope: [{ apertureUm: 1400, retainedPct: { max: 3 } }] },
      { envelope: [{ apertureUm: 1400, retainedPct: { max: 4.5 } }] },
      "retained on 1.40 mm: at most 3 % -> 4.5 %",
    ],
    [
      { values: [{ id: "percentileUm", passingPct: 50, min: 690, max: 790 }] },
      { values: [] },
      "limit on d50 removed (at least 690 um, at most 790 um)",
    ],
    [{ values: [] }, { values: [{ id: "relativeSpan" }] }, "Relative span: asked for, without a limit"],
    [
      { values: [{ id: "finenessModulus" }] },
      { values: [{ id: "finenessModulus", series: "en" }] },
      "Fineness modulus: series astm, not stated -> en",
    ],
    [{ stackUm: [1000, 500] }, { stackUm: [1000, 500, 355] }, "stack: 355 um added"],
    [{ stackUm: [1000, 500] }, { stackUm: [1000] }, "stack: 500 um removed"],
    [{ decision: { rule: "simple" } }, { decision: { rule: "guarded" } }, "decision simple -> guarded"],
  ])("from %j to %j: %s", (before, after, told) =>
    expect(words({ ...FULL_PRODUCT, ...before }, { ...FULL_PRODUCT, ...after })).toEqual([told]),
  );

  test("of the method", () => {
    expect(method({ basis: "charge" })).toEqual(["method: basis recovered -> charge"]);
    expect(method({ pan: "dropped" })).toEqual(["method: pan counted as 44 um -> dropped"]);
    expect(method({ chargeG: { min: 250, target: 300, max: 350 } })).toEqual([
      "method: charge at least 200 g -> 250 g",
    ]);
    const { basis: _, ...withoutBasis } = FULL_PRODUCT.method ?? {};
    expect(changed({ method: withoutBasis })).toEqual(["method: basis recovered -> recovered, not stated"]);
  });

  test("of who and when comes first", () =>
    expect(changed({ revision: 4, effective: "2026-12-01", reason: "too coarse", envelope: [] }).slice(0, 3)).toEqual([
      "revision 3 -> 4",
      "in force from 2026-10-01 -> 2026-12-01",
      'reason "finer sand asked for" -> "too coarse"',
    ]));

  test("a second limit on one aperture is told apart from the first", () =>
    expect(words({ ...FULL_PRODUCT, envelope: [at(12)] }, { ...FULL_PRODUCT, envelope: [at(12), at(10)] })).toEqual([
      "passing at 500 um: limit added, at most 10 %",
    ]));

  test("a fresh draft changes nothing of what is judged", () =>
    expect(contentDiff(FULL_PRODUCT, draftFrom(FULL_PRODUCT, "KO", "2026-11-24T08:00:00+01:00"))).toEqual([]));
});
