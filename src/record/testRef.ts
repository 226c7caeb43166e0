import { z } from "zod";
import { code, day } from "./fields.ts";

/** A recorded test that something else is about: its own name, and the entry of the log that holds it. */
export const TestRefSchema = z.strictObject({ testId: code, day, number: z.int().positive() });

export type TestRef = z.infer<typeof TestRefSchema>;
