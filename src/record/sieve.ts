import { z } from "zod";
import { apertureUm, code, text } from "./fields.ts";

/** One physical test sieve. */
export const SieveSchema = z.strictObject({
  schema: z.literal("sievewright.sieve/1"),
  serial: code,
  apertureUm,
  frameMm: z.number().positive().max(2000).optional(),
  standard: text(60).optional(),
});

/** A set of physical sieves that is used as one stack, coarsest first; the pan is understood. */
export const StackSchema = z.strictObject({
  schema: z.literal("sievewright.stack/1"),
  code,
  name: text(80),
  serials: z.array(code).min(1).max(64),
});

/** The sieve as it stood in the stack of one test: copied into the test, so that later edits change nothing. */
export const SieveInStackSchema = z.strictObject({ apertureUm, serial: code.optional() });

export type Sieve = z.infer<typeof SieveSchema>;
export type Stack = z.infer<typeof StackSchema>;
export type SieveInStack = z.infer<typeof SieveInStackSchema>;
