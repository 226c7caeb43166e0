import { z } from "zod";
import { apertureUm, massG, text } from "./fields.ts";
import { DISPOSITIONS, SignedVerdictSchema } from "./test.ts";
import { TestRefSchema } from "./testRef.ts";

/** Why something was changed, in a person's own words. */
export const reason = text(400).refine((words) => words.trim().length >= 3, "needs a reason in words");

const mass = massG.nullable();
const words = text(400);
const disposition = z.enum(DISPOSITIONS).nullable();

/** What of a recorded test can be corrected: what stood there, what should have stood there. */
export const ChangeSchema = z.discriminatedUnion("field", [
  z.strictObject({
    field: z.enum(["emptyG", "fullG"]),
    apertureUm: z.union([apertureUm, z.literal(0)]),
    from: mass,
    to: mass,
  }),
  z.strictObject({ field: z.enum(["chargeG", "washedG", "moistG", "dryG"]), from: mass, to: mass }),
  z.strictObject({ field: z.enum(["lot", "line", "samplingPoint", "remark"]), from: words, to: words }),
  z.strictObject({ field: z.literal("disposition"), from: disposition, to: disposition }),
]);

/** A correction never touches the test: it says what is to be read otherwise, and what was judged and signed anew. */
export const correctionFields = {
  of: TestRefSchema,
  changes: z.array(ChangeSchema).min(1).max(80),
  reason,
  signed: SignedVerdictSchema,
};

/** A test that does not count (voided), counts again (reinstated), or counts although it is invalid (waived). */
export const standingFields = { of: TestRefSchema, reason };

/** Kinds of later entries about a recorded test. */
export const AMENDMENT_KINDS = ["correction", "voided", "reinstated", "waived"] as const;

export type Change = z.infer<typeof ChangeSchema>;
