import { z } from "zod";
import { code, text } from "./fields.ts";

export const MOTIONS = ["vertical throw", "horizontal circular", "tapping", "hand", "air jet"] as const;

/** How the shaker runs. Stroke is peak to peak (twice the amplitude); acceleration is the peak, in g. */
export const ProgramSchema = z.strictObject({
  schema: z.literal("sievewright.program/1"),
  code,
  name: text(80).min(1),
  motion: z.enum(MOTIONS),
  durationS: z
    .number()
    .positive()
    .max(24 * 3600),
  strokeMm: z.number().positive().max(100).optional(),
  peakAccelerationG: z.number().positive().max(100).optional(),
  frequencyHz: z.number().positive().max(1000).optional(),
  onS: z.number().positive().optional(),
  offS: z.number().min(0).optional(),
  aids: z.array(text(60)).max(10).optional(),
  wet: z.boolean().optional(),
});

export type Program = z.infer<typeof ProgramSchema>;
