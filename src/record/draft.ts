import { z } from "zod";
import { testFields } from "./test.ts";

export const STAGES = ["set out", "weigh empty", "shake", "weigh full", "result"] as const;

/** A test in progress, as it lies on disk: where the operator is, and all that has been accepted so far. */
export const DraftSchema = z.strictObject({
  schema: z.literal("sievewright.draft/1"),
  stage: z.enum(STAGES),
  ...testFields,
});

export type Draft = z.infer<typeof DraftSchema>;
export type Stage = (typeof STAGES)[number];
