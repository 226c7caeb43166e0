import { z } from "zod";
import { apertureUm, code, massG, text } from "./fields.ts";

export const MOTIONS = [
  "vertical throw",
  "horizontal circular",
  "horizontal circular with tapping",
  "tapping",
  "hand",
  "air jet",
] as const;

export const AIDS = ["balls", "rings", "cubes", "brush", "flow agent", "antistatic"] as const;

/** What helps the grains through, for it changes the result: of what, how many, how much, on which sieves. */
export const AidSchema = z.strictObject({
  aid: z.enum(AIDS),
  material: text(40).optional(),
  /** On each of the sieves. */
  count: z.int().positive().max(1000).optional(),
  doseG: massG.optional(),
  onUm: z.array(apertureUm).max(64).optional(),
});

/** Settings of a shaker. Stroke is peak to peak (twice the amplitude); acceleration is the peak, in g. */
const settings = {
  motion: z.enum(MOTIONS),
  durationS: z
    .number()
    .positive()
    .max(24 * 3600),
  strokeMm: z.number().positive().max(100).optional(),
  peakAccelerationG: z.number().positive().max(100).optional(),
  frequencyHz: z.number().positive().max(1000).optional(),
  tapsPerMin: z.number().positive().max(1000).optional(),
  onS: z.number().positive().optional(),
  offS: z.number().min(0).optional(),
  aids: z
    .array(z.union([text(60), AidSchema]))
    .max(10)
    .optional(),
  wet: z.boolean().optional(),
};

/** How the shaker runs. */
export const ProgramSchema = z.strictObject({
  schema: z.literal("sievewright.program/1"),
  code,
  name: text(80).min(1),
  ...settings,
});

/** How the shaker ran in one test, as far as it was noted; what is absent ran as planned or was not noted. */
export const ProgramRunSchema = z.strictObject({ code: code.optional(), ...z.strictObject(settings).partial().shape });

export type Program = z.infer<typeof ProgramSchema>;
export type ProgramRun = z.infer<typeof ProgramRunSchema>;
export type Aid = z.infer<typeof AidSchema>;
