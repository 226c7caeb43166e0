import { z } from "zod";
import { DecisionSchema, LimitDecisionSchema } from "./decision.ts";
import {
  apertureUm,
  code,
  day,
  initials,
  inOrder,
  limits,
  massG,
  namedApertureUm,
  someLimit,
  stackUm,
  text,
} from "./fields.ts";
import { APERTURE_CHOICES } from "./meanAperture.ts";
import { ProcedureChoiceSchema } from "./procedure.ts";
import { UncertaintySchema } from "./uncertainty.ts";
import { VALUE_IDS } from "./valueIds.ts";

export const BASES = ["recovered", "charge"] as const;
export const INTERPOLATIONS = ["log-linear", "linear", "log-probability", "monotone"] as const;
export const MODULUS_SERIES = ["astm", "en", "feed"] as const;
export const CLASS_MEANS = ["arithmetic", "geometric", "logarithmic"] as const;
export const RETEST_WAYS = ["second portion", "resample"] as const;
/** When the sieves are weighed empty: for every test, or once in a shift as long as nothing was done to them. */
export const EMPTY_MASSES = ["each test", "each shift"] as const;
export const FITS = ["least-squares", "line"] as const;

const SHOWN = "must be the id of a characteristic value, or a percentile like percentileUm@50";

const percent = z
  .strictObject({ min: z.number().min(0).max(100).optional(), max: z.number().min(0).max(100).optional() })
  .refine(someLimit, "needs min, max or both")
  .refine(inOrder, "has its min above its max");

/** How this limit is decided, where otherwise than the product says for all. */
const decided = { decision: LimitDecisionSchema.optional() };

/** A limit on one aperture, put on what passes, on what that sieve retains, or on all that is coarser. */
export const ApertureLimitSchema = z.union(
  [
    z.strictObject({ apertureUm: namedApertureUm, passingPct: percent, ...decided }),
    z.strictObject({ apertureUm: namedApertureUm, retainedPct: percent, ...decided }),
    z.strictObject({ apertureUm: namedApertureUm, coarserPct: percent, ...decided }),
  ],
  "needs apertureUm and exactly one of passingPct, retainedPct, coarserPct, each with min, max or both (0 to 100)",
);

const modulusWish = z.strictObject({
  id: z.literal("finenessModulus"),
  series: z.enum(MODULUS_SERIES).optional(),
  /** A sieve of the series that the stack lacks may be read from the curve; said beside the number. */
  interpolateMissing: z.boolean().optional(),
  ...limits,
  ...decided,
});
const percentileWish = z.strictObject({
  id: z.literal("percentileUm"),
  passingPct: z.number().gt(0).lt(100),
  ...limits,
  ...decided,
});
const valueWish = z.strictObject({ id: z.enum(VALUE_IDS).exclude(["finenessModulus"]), ...limits, ...decided });

/** A characteristic value that the product's people ask for, with its limits if it has any. */
export const ValueWishSchema = z
  .discriminatedUnion("id", [modulusWish, percentileWish, valueWish])
  .refine(inOrder, "has its min above its max");

const chargeG = z
  .strictObject({ min: massG.optional(), target: massG.optional(), max: massG.optional() })
  .refine(inOrder, "has its min above its max");

/** What may be tested again after a result out of limits, how often, and whether the average of all decides. */
export const RetestSchema = z.strictObject({
  ways: z.array(z.enum(RETEST_WAYS)).min(1).max(2),
  atMost: z.int().min(1).max(20).optional(),
  average: z.literal(true).optional(),
});

export const MethodSchema = z.strictObject({
  basis: z.enum(BASES).optional(),
  interpolation: z.enum(INTERPOLATIONS).optional(),
  /** Which mean apertures the curve is drawn over; limits are read from it at the nominal ones. Without it nominal. */
  apertures: z.enum(APERTURE_CHOICES).optional(),
  chargeG: chargeG.optional(),
  maxLossPct: z.number().min(0).max(100).optional(),
  washed: z.boolean().optional(),
  /** Without it the sieves are weighed empty for each test. */
  emptyMasses: z.enum(EMPTY_MASSES).optional(),
  program: code.optional(),
  /** The end point in the product's own words; what is judged stands in `procedure`. */
  endPoint: text(60).optional(),
  /** A limit on an aperture that the stack lacks is read from the curve; without this it is not determinable. */
  interpolateMissing: z.boolean().optional(),
  /** The named rule set by which the test itself is judged, and what this product decides otherwise. */
  procedure: ProcedureChoiceSchema.optional(),
  /** Without it a lot is decided by its first valid test. */
  retest: RetestSchema.optional(),
  topUm: apertureUm.optional(),
  pan: z
    .union([z.literal("dropped"), z.strictObject({ sizeUm: apertureUm })], 'must be "dropped" or { "sizeUm": ... }')
    .optional(),
  classMean: z.enum(CLASS_MEANS).optional(),
  fit: z.enum(FITS).optional(),
});

export const MaterialSchema = z.strictObject({
  particleDensityKgM3: z.number().positive().optional(),
  surfaceShapeFactor: z.number().positive().optional(),
  volumeShapeFactor: z.number().positive().optional(),
  sphericity: z.number().positive().max(1).optional(),
});

/** A value is asked for once: two fineness moduli of different series would be told apart by nobody. */
const eachOnce = (wishes: readonly z.infer<typeof ValueWishSchema>[]): boolean => {
  const names = wishes.map((wish) => (wish.id === "percentileUm" ? `${wish.id}@${wish.passingPct}` : wish.id));
  return new Set(names).size === names.length;
};

/** One revision of a product: its stack, its method and the envelope it is judged against. */
export const ProductSchema = z.strictObject({
  schema: z.literal("sievewright.product/1"),
  code,
  name: text(80).min(1),
  revision: z.int().positive(),
  effective: day.optional(),
  approvedBy: initials.optional(),
  /** Who wrote this revision, and why there is one. */
  author: initials.optional(),
  reason: text(400).optional(),
  stackUm,
  method: MethodSchema.optional(),
  envelope: z.array(ApertureLimitSchema).max(200).optional(),
  values: z.array(ValueWishSchema).max(60).refine(eachOnce, "asks for a value twice: keep one of them").optional(),
  decision: DecisionSchema.optional(),
  show: z
    .array(z.union([z.enum(VALUE_IDS), z.string().regex(/^percentileUm@\d{1,2}(?:\.\d{1,4})?$/, SHOWN)], SHOWN))
    .max(60)
    .optional(),
  material: MaterialSchema.optional(),
  /** What else bears on how sure a result is. */
  uncertainty: UncertaintySchema.optional(),
});

export type Product = z.infer<typeof ProductSchema>;
export type RetestWay = (typeof RETEST_WAYS)[number];
export type ApertureLimit = z.infer<typeof ApertureLimitSchema>;
export type ValueWish = z.infer<typeof ValueWishSchema>;
export type Method = z.infer<typeof MethodSchema>;
export type Material = z.infer<typeof MaterialSchema>;
export type Basis = (typeof BASES)[number];
export type Interpolation = (typeof INTERPOLATIONS)[number];
export type ModulusSeries = (typeof MODULUS_SERIES)[number];
export type ClassMean = (typeof CLASS_MEANS)[number];
export type Fit = (typeof FITS)[number];
