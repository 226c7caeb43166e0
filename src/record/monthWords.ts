import { z } from "zod";
import { DISPOSITIONS, PRODUCT_VERDICTS, TEST_VERDICTS } from "./test.ts";

const month = z.string().regex(/^\d{4}-\d{2}$/);

/** What the rows of a month say that is looked for by typing, each thing once. A row of its own has less, never more. */
export const MonthWordsSchema = z.strictObject({
  /** Products, lots, lines, sampling points and initials, as they are written. */
  words: z.array(z.string()),
  states: z.array(
    z.strictObject({
      test: z.enum(TEST_VERDICTS),
      verdict: z.enum(PRODUCT_VERDICTS),
      disposition: z.enum(DISPOSITIONS).nullable(),
      amended: z.strictObject({ corrections: z.int().min(0), voided: z.boolean(), waived: z.boolean() }).optional(),
    }),
  ),
});

/**
 * `index/words.json`: which months of the log can hold what is looked for, so that no other month is read. `folderMs` is the
 * time of the month's folder when its words were taken: a folder of another time has them no more.
 */
export const WordsFileSchema = z.strictObject({
  schema: z.literal("sievewright.words/1"),
  months: z.record(month, MonthWordsSchema.extend({ folderMs: z.number() })),
  sum: z.string(),
});

export type MonthWords = z.infer<typeof MonthWordsSchema>;
export type WordsFile = z.infer<typeof WordsFileSchema>;
