import { z } from "zod";
import { code, massG, namedApertureUm, text } from "./fields.ts";

const sieve = { sieve: code.optional() };
const weighed = { emptyG: massG, fullG: massG };
const net = { netG: z.number().min(-1e7).max(1e7) };
const pan = { pan: z.literal(true) };

export const SheetWeighingSchema = z.union(
  [
    z.strictObject({ apertureUm: namedApertureUm, ...sieve, ...weighed }),
    z.strictObject({ apertureUm: namedApertureUm, ...sieve, ...net }),
    z.strictObject({ ...pan, ...sieve, ...weighed }),
    z.strictObject({ ...pan, ...sieve, ...net }),
  ],
  "needs apertureUm (or pan: true) with emptyG and fullG, or with netG",
);

/** A weighing sheet as JSON; the CSV form is read into the same shape. */
export const SheetSchema = z.strictObject({
  schema: z.literal("sievewright.sheet/1"),
  product: code.optional(),
  lot: text(40).optional(),
  line: text(40).optional(),
  chargeG: massG.optional(),
  washedG: massG.optional(),
  moisturePct: z.number().min(0).max(1000).optional(),
  weighings: z.array(SheetWeighingSchema).min(1).max(65),
});

export type Sheet = z.infer<typeof SheetSchema>;
