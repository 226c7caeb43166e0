import { z } from "zod";
import { AMENDMENT_KINDS } from "./amendment.ts";
import { code, day, initials, moment, sha256, text } from "./fields.ts";
import {
  HandoverSchema,
  HandoverTakenSchema,
  HoldClosedSchema,
  HoldOpenedSchema,
  LimitsFrozenSchema,
  LineAdjustedSchema,
} from "./logEntry.ts";
import { APERTURE_CHOICES } from "./meanAperture.ts";
import { RETEST_WAYS } from "./product.ts";
import { DISPOSITIONS, PRODUCT_VERDICTS, TEST_VERDICTS } from "./test.ts";
import { TestRefSchema } from "./testRef.ts";

/** Figures by name. A month has tens of thousands of them, which the library would check far more slowly one by one. */
const isFigures = (found: unknown): found is Record<string, number> =>
  typeof found === "object" && found !== null && !Array.isArray(found) && Object.values(found).every(Number.isFinite);
const figures = z.custom<Record<string, number>>(isFigures, "expected numbers by name");

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
  /** Which test of the lot it repeats, and how it came about; absent where it repeats none. */
  retest: z.strictObject({ way: z.enum(RETEST_WAYS), number: z.int().positive() }).optional(),
  /** Over which apertures its curve is drawn; absent for nominal ones. */
  apertures: z.enum(APERTURE_CHOICES).exclude(["nominal"]).optional(),
  /** Determinable characteristic values, and percentiles as `percentileUm@50`. */
  values: figures,
  /** Passing % by nominal aperture in um: of the sieve, or read there from a curve over other apertures as far as it reaches. */
  passingPct: figures,
});

/** Where a later entry about a test lies: the day and number of the entry, and the test. */
export const AmendmentRefSchema = z.strictObject({
  day,
  number: z.int().positive(),
  kind: z.enum(AMENDMENT_KINDS),
  of: TestRefSchema,
});

/** Entries besides tests that stay of interest for months: what is kept back, and the limits of control charts. */
export const MatterSchema = z.discriminatedUnion("kind", [HoldOpenedSchema, HoldClosedSchema, LimitsFrozenSchema]);

/** Entries besides tests that trends and handovers look up; they are small and kept whole. */
export const EventSchema = z.discriminatedUnion("kind", [
  HoldOpenedSchema,
  HoldClosedSchema,
  LimitsFrozenSchema,
  LineAdjustedSchema,
  HandoverSchema,
  HandoverTakenSchema,
]);

/** `index/2026-11.json`. A day whose seal differs from that of its day file's last entry is read again from the log. */
export const IndexMonthSchema = z.strictObject({
  schema: z.literal("sievewright.index/1"),
  month: z.string().regex(/^\d{4}-\d{2}$/),
  days: z.record(day, z.strictObject({ entries: z.int().min(0), lastSeal: sha256 })),
  rows: z.array(IndexRowSchema),
  /** By which drawing of rows they were drawn (`ROWS_DRAWN`); another one, or none, and they are drawn again. */
  drawnBy: z.int().positive().optional(),
  /** Days with a test whose row could not be drawn: they are tried again at the next opening; absent where there is none. */
  undrawn: z.array(day).optional(),
  /** Later entries about tests that lie in this month's days, whenever the tests were; absent where there are none. */
  amendments: z.array(AmendmentRefSchema).optional(),
  /** What else lies in this month's days and is looked up; absent where there is nothing. */
  events: z.array(EventSchema).optional(),
  /** In the first line: the SHA-256 of the text behind that line; absent in older files. */
  sum: sha256.optional(),
});

/** A test that later entries are about: the numbers of those entries, and the row as it is to be read today. */
export const AmendedTestSchema = z.strictObject({ later: z.array(z.int().positive()), row: IndexRowSchema });

export const MattersSeenSchema = z.strictObject({ count: z.int().min(0), last: z.int().min(0) });

/**
 * `index/amended.json`: every amended test of the station, so that a list of one month need not look through all later
 * ones; and the matters of all months that are still of use, so that a hold of last year is not forgotten. `head` is where
 * the log ended when it was written; `sum`, in the first line, is the SHA-256 of the text behind that line.
 */
export const AmendedFileSchema = z.strictObject({
  schema: z.literal("sievewright.amended/1"),
  head: z.strictObject({ number: z.int().min(0), day: day.nullable() }),
  months: z.record(z.string().regex(/^\d{4}-\d{2}$/), z.array(AmendmentRefSchema)),
  tests: z.array(AmendedTestSchema),
  /** As in the months. */
  drawnBy: z.int().positive().optional(),
  /** Open holds and all control limits. */
  matters: z.array(MatterSchema),
  /** How many matters each month held when they were taken from it, and the number of the last; absent in older files. */
  seen: z.record(z.string().regex(/^\d{4}-\d{2}$/), MattersSeenSchema).optional(),
  sum: sha256,
});

export type IndexRow = z.infer<typeof IndexRowSchema>;
/** A month without the sum over its file. */
export type IndexMonth = Omit<z.infer<typeof IndexMonthSchema>, "sum">;
export type Matter = z.infer<typeof MatterSchema>;
export type MattersSeen = z.infer<typeof MattersSeenSchema>;
export type LoggedEvent = z.infer<typeof EventSchema>;
export type AmendmentRef = z.infer<typeof AmendmentRefSchema>;
export type AmendedTest = z.infer<typeof AmendedTestSchema>;
export type AmendedFile = z.infer<typeof AmendedFileSchema>;

/** Whether a test says something of its product: it is not void, and valid, or waived by whoever may. */
export const isCounted = ({ test, amended }: Pick<IndexRow, "test" | "amended">): boolean =>
  amended?.voided !== true && (test !== "invalid" || amended?.waived === true);
