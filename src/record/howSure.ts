import { z } from "zod";
import { COMPONENT_IDS } from "./uncertainty.ts";

const component = z.enum(COMPONENT_IDS);

/** A source of uncertainty: what was taken for it, or why it is not included. */
const source = z.discriminatedUnion("included", [
  z.strictObject({ id: component, label: z.string(), included: z.literal(true), told: z.string() }),
  z.strictObject({ id: component, label: z.string(), included: z.literal(false), reason: z.string() }),
]);

/** How sure one number is, in its own unit. `low` and `high` are cut at what can be. */
const sure = z.discriminatedUnion("determinable", [
  z.strictObject({
    determinable: z.literal(true),
    value: z.number(),
    unit: z.string(),
    u: z.number(),
    /** Expanded with k = 2. */
    U: z.number(),
    low: z.number(),
    high: z.number(),
    by: z.enum(["first order", "monte carlo"]),
    /** Standard uncertainty by component, first order; what is not included is left out. */
    components: z.partialRecord(component, z.number()),
  }),
  z.strictObject({ determinable: z.literal(false), reason: z.string() }),
]);

const end = z.number().nullable();

const limit = z.strictObject({
  on: z.string(),
  rule: z.enum(["simple", "guarded acceptance", "guarded rejection", "guarded both"]),
  /** Width of the guard band; 0 under the simple rule. */
  guard: z.number(),
  /** Where a result must lie to be within; low above high where the guard bands meet. */
  acceptance: z.strictObject({ low: end, high: end }),
  result: z.enum(["within", "borderline", "below", "above"]),
  conformity: z.number(),
  /** Of what is accepted, the chance that it should not be; of what is rejected, that it should not be; else null. */
  consumerRisk: end,
  producerRisk: end,
});

const decides = z.strictObject({
  on: z.string(),
  side: z.enum(["min", "max"]),
  result: z.enum(["within", "borderline", "below", "above"]),
  /** From the value to the limit, and to the end of where it is within; negative outside. */
  toLimit: z.number(),
  toAcceptance: z.number(),
  largest: z.strictObject({ component, shareOfVariance: z.number() }).nullable(),
  /** As `decides:` on a page says it. */
  words: z.array(z.string()),
});

const few = z.strictObject({
  apertureUm: z.number(),
  side: z.enum(["coarser", "finer"]),
  grains: z.number(),
  needed: z.number(),
});

const compared = z.strictObject({
  on: z.string(),
  /** The numerical tolerance of u, and how far the ends of both intervals lie apart. */
  tolerance: z.number(),
  lowApart: z.number(),
  highApart: z.number(),
  agree: z.boolean(),
});

/** How sure a result is, as `evaluate --json` prints it under `uncertainty`. */
export const HowSureSchema = z.strictObject({
  model: z.int().positive(),
  coverageFactor: z.literal(2),
  components: z.array(source),
  passingPct: z.array(z.strictObject({ apertureUm: z.number().positive(), sure })),
  /** Percentiles, values and limits that are not on passing %, by their names. */
  others: z.record(z.string(), sure),
  limits: z.array(limit),
  decides: decides.nullable(),
  fewGrains: z.array(few),
  monteCarlo: z
    .strictObject({
      seed: z.int(),
      draws: z.int().positive(),
      settled: z.boolean(),
      compared: z.array(compared),
    })
    .nullable(),
});

export type HowSureJson = z.infer<typeof HowSureSchema>;
