import { z } from "zod";
import { reason } from "./amendment.ts";
import { code, moment, sha256, text } from "./fields.ts";
import { DISPOSITIONS } from "./test.ts";
import { TestRefSchema } from "./testRef.ts";

/** What of a line was changed on purpose: marked on its trends, and a reason to sample anew. */
export const ADJUSTMENTS = ["deck", "feed rate", "dryer temperature", "speed", "other"] as const;

/** What happens on a line: an adjustment, another product, another lot, or that it stands still or runs again. */
export const LINE_EVENTS = [...ADJUSTMENTS, "changeover", "new lot", "stopped", "started"] as const;

/** The entry, by its place in the log, that a later one is about. */
export const EntryRefSchema = z.strictObject({ day: z.iso.date(), number: z.int().positive() });

/** A lot is kept back: why, for whom to decide, and the test that gave cause. */
export const holdFields = {
  product: code,
  lot: text(40),
  line: text(40),
  of: TestRefSchema.nullable(),
  owner: text(40).min(1),
  reason,
};

/** A hold is closed by what becomes of the lot. */
export const holdClosedFields = {
  hold: EntryRefSchema,
  product: code,
  lot: text(40),
  disposition: z.enum(DISPOSITIONS).exclude(["hold", "resample"]),
  reason,
  /** What the tests of the lot said against its release, as whoever signed had it before them. */
  despite: text(400).optional(),
};

export const adjustmentFields = {
  line: text(40).min(1),
  product: code.optional(),
  /** The lot that begins, for a new lot. */
  lot: text(40).optional(),
  what: z.enum(LINE_EVENTS),
  detail: text(400),
};

/** A shift of a station's plan, as it was when it was handed over. */
export const ShiftSchema = z.strictObject({ name: text(40), began: moment, ends: moment });

/** The page that was handed over: which shift, where the log ended, and the SHA-256 of the page's text. */
export const handoverFields = {
  shift: ShiftSchema,
  head: z.strictObject({ number: z.int().min(0), seal: sha256 }),
  pageSha256: sha256,
  remark: text(400),
};

/** Whoever comes on has read the page. */
export const handoverTakenFields = { handover: EntryRefSchema };

/** What a control chart plots: single tests, or the means of a test's portions with their range or deviation. */
export const CHARTED_AS = ["individuals", "mean-and-range", "mean-and-deviation"] as const;

/** Control limits, set from a baseline and kept until a logged change: of which figure, from which tests. */
export const frozenFields = {
  product: code,
  line: text(40).min(1),
  /** The id of a characteristic value, "percentileUm@50" or "passingPct@500". */
  on: text(60).min(1),
  chart: z.enum(CHARTED_AS),
  /** Portions a test, 1 on a chart of individuals. */
  replicates: z.int().min(1),
  centre: z.number(),
  sigma: z.number().gt(0),
  tests: z.int().min(2),
  /** The tests behind the limits; they hold from the first one on. */
  first: TestRefSchema,
  last: TestRefSchema,
  sinceAt: moment,
  /** Ids of tests in between that were shown but left out of the reckoning. */
  leftOut: z.array(code),
  reason,
};

export type EntryRef = z.infer<typeof EntryRefSchema>;
export type LineEventName = (typeof LINE_EVENTS)[number];
