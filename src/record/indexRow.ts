import { z } from "zod";
import { code, day, initials, moment, sha256, text } from "./fields.ts";
import { DISPOSITIONS, PRODUCT_VERDICTS, TEST_VERDICTS } from "./test.ts";

/** What lists, filters and trends need of one recorded test; always drawn from the log again, never the original. */
export const IndexRowSchema = z.strictObject({
  number: z.int().positive(),
  testId: code,
  at: moment,
  day,
  product: code,
  revision: z.int().positive(),
  lot: text(40),
  line: text(40),
  samplingPoint: text(40),
  by: initials,
  test: z.enum(TEST_VERDICTS),
  verdict: z.enum(PRODUCT_VERDICTS),
  disposition: z.enum(DISPOSITIONS).nullable(),
  lossPct: z.number().nullable(),
  /** What later entries made of it; absent while there is none. The figures are those of the latest version. */
  amended: z.strictObject({ corrections: z.int().min(0), voided: z.boolean(), waived: z.boolean() }).optional(),
  /** Determinable characteristic values, and percentiles as `percentileUm@50`. */
  values: z.record(z.string(), z.number()),
  /** Passing % by aperture in um. */
  passingPct: z.record(z.string(), z.number()),
});

/** `index/2026-11.json`. A day whose seal differs from that of its day file's last entry is read again from the log. */
export const IndexMonthSchema = z.strictObject({
  schema: z.literal("sievewright.index/1"),
  month: z.string().regex(/^\d{4}-\d{2}$/),
  days: z.record(day, z.strictObject({ entries: z.int().min(0), lastSeal: sha256 })),
  rows: z.array(IndexRowSchema),
});

export type IndexRow = z.infer<typeof IndexRowSchema>;
export type IndexMonth = z.infer<typeof IndexMonthSchema>;
