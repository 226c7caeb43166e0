import { z } from "zod";
import { apertureUm, code, initials, massG, moment } from "./fields.ts";

export const WEIGHT_CLASSES = ["F1", "F2", "M1"] as const;

/** One check weight put on the balance, and what the balance showed. */
export const WeightReadingSchema = z.strictObject({
  weight: code.optional(),
  weightClass: z.enum(WEIGHT_CLASSES).optional(),
  nominalG: massG.gt(0),
  readG: z.number().min(-1e7).max(1e7),
  /** Largest permitted difference of the reading from the nominal mass. */
  toleranceG: massG.gt(0),
});

/** The check of a balance before use. Whether it passed is worked out, never stored. */
export const BalanceCheckSchema = z.strictObject({
  at: moment,
  balance: code,
  by: initials,
  readings: z.array(WeightReadingSchema).min(1).max(20),
});

/** What the check period did on one sieve: the mass on it before and after, or the mass that passed, or both. */
export const EndPointReadingSchema = z
  .strictObject({ apertureUm, beforeG: massG.gt(0), afterG: massG.optional(), passedG: massG.optional() })
  .refine((r) => r.afterG !== undefined || r.passedG !== undefined, "needs afterG, passedG or both");

export type WeightClass = (typeof WEIGHT_CLASSES)[number];
export type WeightReading = z.infer<typeof WeightReadingSchema>;
export type BalanceCheck = z.infer<typeof BalanceCheckSchema>;
export type EndPointReading = z.infer<typeof EndPointReadingSchema>;
