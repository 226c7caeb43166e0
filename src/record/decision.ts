import { z } from "zod";

export const RULES = ["simple", "guarded"] as const;
/** Which decisions a guard band guards: acceptance only inside by more than the band, rejection only outside by more. */
export const GUARDS = ["acceptance", "rejection", "both"] as const;

/** How wide a guard band is: so many standard uncertainties, or the part r of the expanded uncertainty U = 2 u. */
const width = z.union(
  [z.strictObject({ u: z.number().positive().max(10) }), z.strictObject({ r: z.number().positive().max(5) })],
  'must be { "u": 1.645 } or { "r": 0.5 }',
);

const ruled = {
  /** Without it acceptance is guarded. Under the simple rule this and the next two decide nothing. */
  guards: z.enum(GUARDS).optional(),
  /** Without it 1.645 u: at most 5 % wrong at the one end that matters. */
  guard: width.optional(),
  /** Of a limit with two ends the one that has a guard band; without it both have one. One end alone always has. */
  side: z.enum(["min", "max"]).optional(),
};

/** How one limit is decided where that is otherwise than the product's others; what is absent is as with those. */
export const LimitDecisionSchema = z.strictObject({ rule: z.enum(RULES).optional(), ...ruled });

/** How a product's limits are decided. */
export const DecisionSchema = z.strictObject({
  rule: z.enum(RULES),
  ...ruled,
  /** What is compared with the limit: the value as computed, or rounded half to even to this step first. */
  compare: z
    .union(
      [z.literal("absolute"), z.strictObject({ roundedTo: z.number().positive() })],
      'must be "absolute" or { "roundedTo": ... }',
    )
    .optional(),
});

export type Decision = z.infer<typeof DecisionSchema>;
export type LimitDecision = z.infer<typeof LimitDecisionSchema>;
